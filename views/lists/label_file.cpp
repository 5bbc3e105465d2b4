#include "views/lists/label_file.h"

#include "views/paper/paper.h"

#include <QCoreApplication>
#include <QFileDialog>

namespace interlude::lists {

namespace {
struct Said {
    Q_DECLARE_TR_FUNCTIONS(Labels)
};
} // namespace

Outcome<int> writeLabels(const Bench& bench, const QString& kind, const QStringList& ids, const QString& file) {
    QHash<QString, paper::Label> known;
    for (const paper::Label& label : paper::labelsOf(bench.shop(), kind)) known.insert(label.id, label);
    QList<paper::Label> wanted;
    for (const QString& id : ids)
        if (known.contains(id)) wanted.append(known.value(id));
    if (wanted.isEmpty()) {
        return refusal(QStringLiteral("labels-none"), Said::tr("There is nothing to print labels of"),
                       Said::tr("choose rows in the list, or clear its filter"));
    }
    return paper::writeLabelsPdf(wanted, file);
}

void chooseLabelFile(QWidget* parent, const QString& proposal, std::function<void(const QString&)> then) {
    auto* dialog = new QFileDialog(parent, Said::tr("Save labels"), proposal, Said::tr("PDF (*.pdf)"));
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->setDefaultSuffix(QStringLiteral("pdf"));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    QObject::connect(dialog, &QFileDialog::fileSelected, parent, then);
    dialog->open();
}

} // namespace interlude::lists
