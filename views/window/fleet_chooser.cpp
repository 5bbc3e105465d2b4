#include "views/window/fleet_chooser.h"

#include "views/bench/remembered.h"
#include "views/look/look.h"
#include "views/look/widgets.h"

#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QStandardPaths>

namespace interlude {

namespace {

const QString recentKey = QStringLiteral("window/recent-fleets");
constexpr int recentKept = 8;

} // namespace

FleetChooser::FleetChooser(const QString& example, QWidget* parent)
    : QDialog(parent), m_reasons(look::label(look::Text::Body)), m_recent(new QListWidget) {
    setWindowTitle(tr("Interlude · choose a fleet"));
    setMinimumSize(80 * look::unit, 50 * look::unit);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(3 * look::unit, 3 * look::unit, 3 * look::unit, 3 * look::unit);
    all->setSpacing(2 * look::unit);
    m_reasons->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_reasons->setWordWrap(true);
    look::setTone(m_reasons, QStringLiteral("alarm"));
    m_reasons->hide();
    all->addWidget(m_reasons);
    all->addWidget(look::label(look::Text::PanelTitle, tr("Which fleet?"), true));
    all->addWidget(look::mutedLabel(look::Text::Body, tr("A fleet is a folder with fleet.yaml in it: printers, people, materials, procedures.")));
    m_recent->setAccessibleName(tr("Opened last"));
    for (const QString& folder : recent()) m_recent->addItem(QDir::toNativeSeparators(folder));
    m_recent->setVisible(m_recent->count() > 0);
    all->addWidget(m_recent, 1);
    if (m_recent->count() == 0) all->addStretch(1);

    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(look::unit);
    auto* another = look::button(tr("Open a folder…"));
    auto* fresh = look::button(tr("Start a new one…"));
    auto* open = look::primaryButton(tr("Open"));
    buttons->addWidget(another);
    buttons->addWidget(fresh);
    if (!example.isEmpty()) {
        auto* sample = look::button(tr("Look at the example"));
        connect(sample, &QPushButton::clicked, this, [this, example] { choose(example); });
        buttons->addWidget(sample);
    }
    buttons->addStretch(1);
    buttons->addWidget(open);
    all->addLayout(buttons);
    open->setVisible(m_recent->count() > 0);
    // Enter on one of them means that one, not the folder opened last.
    for (QPushButton* b : findChildren<QPushButton*>()) b->setAutoDefault(true);
    open->setDefault(m_recent->count() > 0);
    another->setDefault(m_recent->count() == 0);
    m_recent->setCurrentRow(0);

    connect(another, &QPushButton::clicked, this, [this] { askFolder(false); });
    connect(fresh, &QPushButton::clicked, this, [this] { askFolder(true); });
    const auto openCurrent = [this] {
        if (m_recent->currentItem()) choose(QDir::fromNativeSeparators(m_recent->currentItem()->text()));
    };
    connect(open, &QPushButton::clicked, this, openCurrent);
    connect(m_recent, &QListWidget::itemDoubleClicked, this, openCurrent);
}

void FleetChooser::showReasons(const QString& folder, const QStringList& reasons) {
    constexpr qsizetype most = 12;
    QStringList lines{tr("%1 was not opened:").arg(QDir::toNativeSeparators(folder))};
    lines += reasons.first(std::min(most, reasons.size()));
    if (reasons.size() > most)
        lines.append(tr("and %1 more; `interlude check %2` tells them all").arg(reasons.size() - most).arg(folder));
    m_reasons->setText(lines.join(QLatin1Char('\n')));
    m_reasons->show();
}

QStringList FleetChooser::recent() {
    QStringList there;
    for (const QString& folder : remembered()->value(recentKey).toStringList())
        if (QFileInfo(QDir(folder), QStringLiteral("fleet.yaml")).exists()) there.append(folder);
    return there;
}

void FleetChooser::remember(const QString& folder) {
    const QString path = QFileInfo(folder).absoluteFilePath();
    QStringList folders = recent();
    folders.removeAll(path);
    folders.prepend(path);
    remembered()->setValue(recentKey, folders.first(std::min<qsizetype>(recentKept, folders.size())));
}

void FleetChooser::choose(const QString& folder, bool isNew) {
    if (folder.isEmpty()) return;
    m_folder = folder;
    m_new = isNew;
    accept();
}

void FleetChooser::askFolder(bool isNew) {
    auto* dialog = new QFileDialog(this, isNew ? tr("A new or empty folder for the fleet") : tr("The folder of the fleet"),
                                   QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation));
    dialog->setFileMode(QFileDialog::Directory);
    dialog->setOption(QFileDialog::ShowDirsOnly);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QFileDialog::fileSelected, this, [this, isNew](const QString& folder) { choose(folder, isNew); });
    dialog->open();
}

} // namespace interlude
