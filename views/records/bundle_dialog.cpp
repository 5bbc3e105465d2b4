#include "views/records/bundle_dialog.h"

#include "views/look/widgets.h"

#include <QDesktopServices>
#include <QDir>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QUrl>
#include <QVBoxLayout>

namespace interlude {

namespace {

QLabel* selectable(QLabel* label, const QString& name) {
    label->setObjectName(name);
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    return label;
}

void openFile(const QString& path) { QDesktopServices::openUrl(QUrl::fromLocalFile(path)); }

} // namespace

BundleDialog::BundleDialog(const Outcome<BundleCheck>& checked, QWidget* parent) : QDialog(parent) {
    setObjectName(QStringLiteral("bundleDialog"));
    setWindowTitle(tr("Interlude · export bundle"));
    setAccessibleName(windowTitle());
    resize(90 * look::unit, 60 * look::unit);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(3 * look::unit, 2 * look::unit, 3 * look::unit, 2 * look::unit);
    all->setSpacing(look::unit);
    if (checked) {
        tell(*checked, all);
    } else {
        auto* why = selectable(look::label(look::Text::Body, sentence(checked.error()), true), QStringLiteral("bundleResult"));
        look::setTone(why, QStringLiteral("alarm"));
        all->addWidget(why);
        all->addStretch(1);
    }
    addButtons(checked ? checked->folder : QString(), all);
}

void BundleDialog::tell(const BundleCheck& check, QVBoxLayout* all) {
    all->addWidget(look::label(look::Text::PanelTitle, check.about.isEmpty() ? tr("Export") : check.about.first(), true));
    if (check.about.size() > 1)
        all->addWidget(selectable(look::label(look::Text::Body, check.about.mid(1).join(QStringLiteral(" · "))), QStringLiteral("bundleAbout")));
    auto* result = selectable(look::label(look::Text::Body, sentence(check), true), QStringLiteral("bundleResult"));
    look::setTone(result, check.fits() ? QStringLiteral("good") : QStringLiteral("alarm"));
    all->addWidget(result);
    auto* files = new QListWidget;
    files->setAccessibleName(tr("Files of the bundle"));
    for (const CheckedFile& f : check.files) files->addItem(sentence(f));
    all->addWidget(files, 1);
    // Sums beside the files show slips, not forgery: who changes a file can change the list.
    if (check.ledgerHash.isEmpty()) return;
    const QString more = tr("The list of sums lies beside the files, so this does not show who wrote them. Whether the record comes from a shop's "
                      "ledger is told in that shop's window: Records, Verify, with this text:");
    all->addWidget(selectable(look::mutedLabel(look::Text::Small, more + QLatin1Char('\n') + check.ledgerHash), QStringLiteral("bundleHash")));
}

void BundleDialog::addButtons(const QString& folder, QVBoxLayout* all) {
    auto* row = new QHBoxLayout;
    row->setSpacing(look::unit);
    const QString pdf = QDir(folder).filePath(bundle::recordPdf);
    if (!folder.isEmpty() && QFileInfo::exists(pdf)) {
        auto* open = look::primaryButton(tr("Open the &record"));
        connect(open, &QPushButton::clicked, this, [pdf] { openFile(pdf); });
        row->addWidget(open);
    }
    if (!folder.isEmpty()) {
        auto* there = look::button(tr("Open the &folder"));
        connect(there, &QPushButton::clicked, this, [folder] { openFile(folder); });
        row->addWidget(there);
    }
    row->addStretch(1);
    auto* close = look::button(tr("Close"));
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    row->addWidget(close);
    all->addLayout(row);
}

} // namespace interlude
