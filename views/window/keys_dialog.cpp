#include "views/window/keys_dialog.h"

#include "views/asking/ask_dialog.h"
#include "views/asking/on_paper.h"
#include "views/lists/list_view.h"
#include "views/look/widgets.h"
#include "views/window/key_field.h"

#include <QHBoxLayout>
#include <QPrinter>
#include <QTableView>
#include <QVBoxLayout>

namespace interlude {

namespace {

QList<lists::Column<Keys::Use>> columns() {
    using lists::Cell;
    return {{KeysDialog::tr("Where"),
             [](const Keys::Use& u) {
                 Cell c = lists::textCell(Keys::scopeText(u.scope));
                 c.sort = static_cast<int>(u.scope);
                 return c;
             },
             false, 14},
            {KeysDialog::tr("Does"), [](const Keys::Use& u) { return lists::textCell(u.does); }, false, 40},
            {KeysDialog::tr("Key"), [](const Keys::Use& u) { return lists::textCell(keys().textOf(u.id)); }, false, 16},
            {KeysDialog::tr("Preset"),
             [](const Keys::Use& u) {
                 if (u.kind == Keys::Kind::Fixed) return lists::textCell(KeysDialog::tr("stays"));
                 return lists::textCell(keys().isChanged(u.id) ? Keys::text(u.presets.value(0)) : QString());
             },
             false, 14}};
}

} // namespace

KeysDialog::KeysDialog(QWidget* parent)
    : QDialog(parent), m_model(new lists::ListModel<Keys::Use>(columns(), [](const Keys::Use& u) { return u.id; })),
      m_list(new lists::ListView(QStringLiteral("keys"), tr("Keys"), m_model)), m_field(new KeyField),
      m_said(look::label(look::Text::Body)), m_reset(look::button(tr("&Back to its preset"))),
      m_resetAll(look::button(tr("&All back to the presets"))) {
    setAttribute(Qt::WA_DeleteOnClose);
    setObjectName(QStringLiteral("keysDialog"));
    setWindowTitle(tr("Keys"));
    setAccessibleName(windowTitle());
    auto* all = new QVBoxLayout(this);
    all->setSpacing(look::unit);
    all->addWidget(look::label(look::Text::PanelTitle, windowTitle()));
    all->addWidget(look::mutedLabel(look::Text::Body,
                                    tr("Choose a row, go to the field with Enter and press the new key; Delete takes the key "
                                       "away. Keys that confirm in the guide are none that a scanner can send.")));
    all->addWidget(m_list, 1);
    auto* row = new QHBoxLayout;
    row->setSpacing(look::unit);
    m_field->setMinimumWidth(28 * look::unit);
    row->addWidget(m_field);
    row->addWidget(m_reset);
    row->addWidget(m_resetAll);
    row->addStretch(1);
    auto* print = look::button(tr("&Print…"));
    auto* close = look::button(tr("Close"));
    for (QPushButton* b : {m_reset, m_resetAll, print, close}) b->setAutoDefault(false);
    row->addWidget(print);
    row->addWidget(close);
    all->addWidget(m_said);
    all->addLayout(row);
    m_said->setObjectName(QStringLiteral("keysSaid"));
    m_reset->setObjectName(QStringLiteral("keyReset"));
    m_resetAll->setObjectName(QStringLiteral("keysReset"));
    print->setObjectName(QStringLiteral("keysPrint"));
    connect(m_list, &lists::ListView::currentKeyChanged, this, &KeysDialog::choose);
    connect(m_list, &lists::ListView::activated, this, [this] { m_field->setFocus(); });
    connect(m_field, &KeyField::pressed, this, &KeysDialog::take);
    connect(m_reset, &QPushButton::clicked, this, [this] { say(keys().reset(chosen()), tr("As preset again: %1").arg(keys().textOf(chosen()))); });
    connect(m_resetAll, &QPushButton::clicked, this, [this] {
        keys().resetAll();
        say({}, tr("All keys are as preset."));
    });
    connect(print, &QPushButton::clicked, this, &KeysDialog::print);
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    connect(&keys(), &Keys::changed, this, &KeysDialog::refresh);
    refresh();
    m_list->select(keys().uses().first().id);
    m_list->setFocus();
    resize(110 * look::unit, 80 * look::unit);
}

QString KeysDialog::said() const {
    return m_said->text();
}

QString KeysDialog::chosen() const {
    return m_list->currentKey();
}

void KeysDialog::refresh() {
    m_model->setRows(keys().uses());
    choose();
}

void KeysDialog::choose() {
    const Keys::Use* use = keys().use(chosen());
    const bool free = use && use->kind != Keys::Kind::Fixed;
    m_field->setEnabled(free);
    m_field->setText(use ? keys().textOf(use->id) : QString());
    m_field->setAccessibleDescription(use ? use->does : QString());
    m_reset->setEnabled(free && keys().isChanged(use->id));
    m_said->clear();
}

void KeysDialog::take(const QKeySequence& key) {
    const QString id = chosen();
    const QString before = keys().textOf(id);
    const auto against = keys().set(id, key);
    const Keys::Use* use = keys().use(id);
    say(against, key.isEmpty() ? tr("“%1” is without a key; it was %2.").arg(use->does, before)
                               : tr("%1: %2. It was %3.").arg(Keys::text(key), use->does, before.isEmpty() ? tr("without a key") : before));
    m_field->setText(Keys::text(key)); // also what was refused, beside the reason
}

void KeysDialog::say(const std::optional<Finding>& against, const QString& done) {
    look::setTone(m_said, against ? QStringLiteral("alarm") : QString());
    m_said->setText(against ? QStringLiteral("▲ ") + sentence(*against) : done);
}

void KeysDialog::print() {
    putOnPaper(this,
               {tr("Keys"), QStringLiteral("keys.pdf"), uprightLayout(),
                [](const QString& file) { return paper::writePdf(keysSheet(paper::usualSize()), tr("Keys"), file, paper::usualSize()); },
                [](QPrinter& printer) -> Outcome<int> { return keysSheet(paper::sizeOf(printer)).paint(printer); }},
               [this](const Outcome<QString>& said) { say(findingOf(said), said.value_or(QString())); });
}

paper::Sheet keysSheet(paper::Size size) {
    paper::Sheet sheet(size);
    sheet.setRunning(KeysDialog::tr("Interlude"), KeysDialog::tr("Keys"), KeysDialog::tr("as chosen on this PC"));
    const std::pair<Keys::Scope, QString> parts[] = {{Keys::Scope::Window, KeysDialog::tr("Everywhere")},
                                                     {Keys::Scope::Changeover, KeysDialog::tr("In a changeover")},
                                                     {Keys::Scope::Plan, KeysDialog::tr("In the plan")},
                                                     {Keys::Scope::List, KeysDialog::tr("In lists")},
                                                     {Keys::Scope::Text, KeysDialog::tr("In text")},
                                                     {Keys::Scope::Form, KeysDialog::tr("In forms")}};
    for (const auto& [scope, title] : parts) {
        QList<RecordLine> lines;
        for (const Keys::Use& use : keys().uses())
            if (const QString key = keys().textOf(use.id); use.scope == scope && !key.isEmpty()) lines.append({key, use.does});
        sheet.heading(title);
        sheet.lines(lines);
    }
    return sheet;
}

} // namespace interlude
