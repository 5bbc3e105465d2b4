#include "views/asking/on_paper.h"

#include "views/asking/ask_dialog.h"
#include "views/bench/remembered.h"
#include "views/paper/paper.h"
#include "views/words/counted.h"

#include <QComboBox>
#include <QFileDialog>
#include <QPrintDialog>
#include <QPrinter>
#include <QRegularExpression>

namespace interlude {

namespace {

const QString settingName = QStringLiteral("paper/where");
const QString toPrinter = QStringLiteral("printer");

struct OnPaper {
    Q_DECLARE_TR_FUNCTIONS(OnPaper)
};

Outcome<QString> printed(const Document& document, QPrinter& printer) {
    const auto pages = document.print(printer);
    if (!pages) return tl::unexpected(pages.error());
    if (*pages == 0) {
        return refusal(QStringLiteral("print"), OnPaper::tr("The printer took no page"),
                       OnPaper::tr("look at the printer and print again, or save as PDF"));
    }
    return OnPaper::tr("Printed: %1").arg(words::pages(*pages));
}

/// A job's id may have a stroke in it; a file's name may not.
QString fileNameOf(const Document& document) {
    static const QRegularExpression strokes(QStringLiteral("[/\\\\:*?\"<>|]"));
    return QString(document.fileName).replace(strokes, QStringLiteral("-"));
}

} // namespace

QPageLayout uprightLayout() {
    return {paper::pageSize(paper::usualSize()), QPageLayout::Portrait, QMarginsF(0, 0, 0, 0), QPageLayout::Point};
}

void saveAsPdf(QWidget* parent, const Document& document, const Told& told) {
    auto* dialog = new QFileDialog(parent, document.title, documentsFile(fileNameOf(document)), OnPaper::tr("PDF (*.pdf)"));
    dialog->setObjectName(QStringLiteral("pdfDialog"));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->setFileMode(QFileDialog::AnyFile);
    dialog->setDefaultSuffix(QStringLiteral("pdf"));
    dialog->selectFile(fileNameOf(document));
    QObject::connect(dialog, &QFileDialog::fileSelected, parent, [document, told](const QString& file) {
        told(document.write(file).map([&](int pages) { return OnPaper::tr("Written, %1: %2").arg(words::pages(pages), file); }));
    });
    dialog->open();
}

void sendToPrinter(QWidget* parent, const Document& document, const Told& told) {
    const auto printer = std::make_shared<QPrinter>(QPrinter::HighResolution);
    printer->setPageLayout(document.layout);
    printer->setFullPage(true);
    printer->setDocName(document.title);
    auto* dialog = new QPrintDialog(printer.get(), parent);
    dialog->setObjectName(QStringLiteral("printDialog"));
    dialog->setWindowTitle(document.title);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    // The dialog borrows the printer, which lives as long as this connection.
    QObject::connect(dialog, qOverload<QPrinter*>(&QPrintDialog::accepted), parent,
                     [document, told, printer](QPrinter*) { told(printed(document, *printer)); });
    dialog->open();
}

void putOnPaper(QWidget* parent, const Document& document, const Told& told) {
    auto* dialog = new AskDialog(document.title, {}, OnPaper::tr("Go on…"), parent);
    dialog->setObjectName(QStringLiteral("paperDialog"));
    QComboBox* where = dialog->addChoice(QStringLiteral("paperWhere"), OnPaper::tr("Where to"),
                                         {{OnPaper::tr("a printer"), toPrinter}, {OnPaper::tr("a PDF file"), QStringLiteral("pdf")}},
                                         remembered()->value(settingName, toPrinter).toString());
    dialog->setAct([=]() -> std::optional<Finding> {
        const QString chosen = where->currentData().toString();
        remembered()->setValue(settingName, chosen);
        (chosen == toPrinter ? sendToPrinter : saveAsPdf)(parent, document, told);
        return {};
    });
    dialog->open();
}

} // namespace interlude
