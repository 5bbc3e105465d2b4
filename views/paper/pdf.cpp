#include "views/paper/sheet.h"

#include <QBuffer>
#include <QPdfWriter>
#include <QSaveFile>

namespace interlude::paper {

Outcome<int> writePdf(const Sheet& sheet, const QString& title, const QString& file, Size size) {
    return writePdf(QPageLayout(pageSize(size), QPageLayout::Portrait, QMarginsF(0, 0, 0, 0), QPageLayout::Point), title,
                    file, [&](QPagedPaintDevice& pdf) { return sheet.paint(pdf); });
}

Outcome<int> writePdf(const QPageLayout& layout, const QString& title, const QString& file,
                      const std::function<int(QPagedPaintDevice&)>& paint) {
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    int pages = 0;
    {
        QPdfWriter pdf(&bytes);
        pdf.setPdfVersion(QPagedPaintDevice::PdfVersion_A1b);
        pdf.setResolution(600);
        pdf.setTitle(title);
        pdf.setCreator(QStringLiteral("Interlude " INTERLUDE_VERSION));
        pdf.setPageLayout(layout);
        pages = paint(pdf);
    }
    // Whole or not at all: an older file of that name stays when the disk is full.
    QSaveFile out(file);
    if (!out.open(QIODevice::WriteOnly))
        return refusal(QStringLiteral("paper"), Words::tr("%1 cannot be written: %2").arg(file, out.errorString()),
                       Words::tr("choose a folder where you may write"), file);
    if (pages == 0 || out.write(bytes.data()) != bytes.size() || !out.commit())
        return refusal(QStringLiteral("paper"), Words::tr("%1 could not be written whole: %2").arg(file, out.errorString()),
                       Words::tr("make room on the disk and print again"), file);
    return pages;
}

} // namespace interlude::paper
