#include "views/window/paper_choice.h"

#include "views/asking/ask_dialog.h"
#include "views/paper/paper.h"

#include <QComboBox>
#include <QCoreApplication>

namespace interlude {

namespace {
QString tr(const char* text) {
    return QCoreApplication::translate("PaperChoice", text);
}
} // namespace

AskDialog* askPaper(QWidget* parent) {
    auto* d = new AskDialog(tr("Paper"), tr("Records, checklists, summaries, labels and plans are made for this size. When "
                                            "printing, the printer's own dialog can still choose the other."),
                            tr("Use this size"), parent);
    d->setObjectName(QStringLiteral("paperDialog"));
    const QString a4 = QStringLiteral("a4"), letter = QStringLiteral("letter");
    QComboBox* size = d->addChoice(QStringLiteral("paperSize"), tr("Size"), {{tr("A4, 210 × 297 mm"), a4}, {tr("Letter, 8½ × 11 in"), letter}},
                                   paper::usualSize() == paper::Size::Letter ? letter : a4);
    d->setAct([=]() -> std::optional<Finding> {
        paper::keepUsualSize(size->currentData().toString() == letter ? paper::Size::Letter : paper::Size::A4);
        return std::nullopt;
    });
    d->open();
    size->setFocus();
    return d;
}

} // namespace interlude
