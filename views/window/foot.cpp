#include "views/window/foot.h"

#include "views/look/widgets.h"
#include "views/window/problems_dialog.h"

#include <QHBoxLayout>

namespace interlude {

namespace {
constexpr int longestPlace = 50 * look::unit;
/// From here on the foot says who is signed in, too; the header always does.
constexpr int roomForPerson = 135 * look::unit;
} // namespace

Foot::Foot(Bench& bench, QWidget* parent)
    : QFrame(parent), m_bench(bench), m_shop(look::label(look::Text::Small)), m_ledger(look::mutedLabel(look::Text::Small)),
      m_who(look::mutedLabel(look::Text::Small)), m_clock(look::mutedLabel(look::Text::Small)),
      m_problems(look::quietButton({})) {
    setProperty("surface", QStringLiteral("bar"));
    setAccessibleName(tr("Foot"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(2 * look::unit, look::unit / 2, look::unit, look::unit / 2);
    row->setSpacing(3 * look::unit);
    for (QLabel* l : {m_shop, m_ledger, m_who, m_clock}) l->setWordWrap(false);
    m_ledger->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred); // where it lies gives way to all else
    auto* help = look::quietButton(tr("F1 help"));
    for (QPushButton* b : {m_problems, help}) b->setFont(look::font(look::Text::Small));
    row->addWidget(m_shop);
    row->addWidget(m_ledger, 1);
    row->addWidget(m_problems);
    row->addWidget(m_who);
    row->addWidget(m_clock);
    row->addWidget(help);
    connect(help, &QPushButton::clicked, this, &Foot::helpWanted);
    connect(m_problems, &QPushButton::clicked, this, &Foot::openProblems);
    connect(&bench, &Bench::ticked, this, &Foot::refresh);
    connect(&bench, &Bench::changed, this, &Foot::refresh);
    connect(&bench, &Bench::signedIn, this, &Foot::refresh);
    refresh();
}

Problems Foot::problems() const {
    return m_warnings + m_bench.workbench().openingDifferences();
}

void Foot::setWarnings(const Problems& warnings) {
    m_warnings = warnings;
    refresh();
}

void Foot::refresh() {
    const Workbench& workbench = m_bench.workbench();
    const Fleet& fleet = m_bench.catalogue().fleet;
    // A shop whose own name already says "(example)" is not told so twice.
    const bool say = workbench.isExample() && !fleet.name.contains(tr("(example)"));
    m_shop->setText(say ? tr("%1 (example)").arg(fleet.name) : fleet.name);
    sayLedger();
    m_who->setText(m_bench.who().isEmpty() ? tr("Nobody signed in: read-only") : tr("Signed in: %1").arg(m_bench.who()));
    m_clock->setText(m_bench.longTime(m_bench.now()) + QStringLiteral(" ") +
                     QString::fromLatin1(fleet.zone.id()));
    m_unread = 0;
    for (const Problem& p : problems())
        if (!m_read.contains(p.text())) ++m_unread;
    const auto all = static_cast<int>(problems().size());
    m_problems->setVisible(all > 0);
    m_problems->setText(m_unread > 0 ? tr("▲ problems unread: %1").arg(m_unread) : tr("problems: %1, read").arg(all));
    m_problems->setAccessibleName(m_problems->text());
}

void Foot::sayLedger() {
    const QString where = m_bench.workbench().store().location();
    const QString text = tr("Ledger: local · %2 · event %1").arg(m_bench.shop().lastSequence());
    const QFontMetrics metrics = m_ledger->fontMetrics();
    const int room = m_ledger->width() - metrics.horizontalAdvance(text);
    m_ledger->setText(text.arg(metrics.elidedText(where, Qt::ElideMiddle, std::clamp(room, 0, longestPlace))));
    m_ledger->setToolTip(text.arg(where));
}

void Foot::resizeEvent(QResizeEvent* event) {
    QFrame::resizeEvent(event);
    m_who->setVisible(width() >= roomForPerson);
    layout()->activate();
    sayLedger();
}

void Foot::openProblems() {
    const Problems all = problems();
    auto* dialog = new ProblemsDialog(all, window());
    for (const Problem& p : all) m_read.insert(p.text());
    dialog->show();
    refresh();
}

} // namespace interlude
