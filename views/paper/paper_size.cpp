// A4 or Letter.

#include "views/bench/remembered.h"
#include "views/paper/sheet.h"

#include <QLocale>
#include <QPrinter>

namespace interlude::paper {

namespace {

const QString settingName = QStringLiteral("paper/size");

/// Where Letter is usual: Unicode CLDR, supplemental data, measurementData, paperSize US-Letter.
bool usesLetter(QLocale::Territory where) {
    using L = QLocale;
    const QLocale::Territory letter[] = {L::Belize, L::Canada, L::Chile, L::Colombia, L::CostaRica, L::Guatemala, L::Mexico, L::Nicaragua,
                                         L::Panama, L::Philippines, L::PuertoRico, L::ElSalvador, L::UnitedStates, L::Venezuela};
    return std::find(std::begin(letter), std::end(letter), where) != std::end(letter);
}

} // namespace

Size usualSize() {
    const QString chosen = remembered()->value(settingName).toString();
    if (chosen == QStringLiteral("letter")) return Size::Letter;
    if (chosen == QStringLiteral("a4")) return Size::A4;
    return usesLetter(QLocale::system().territory()) ? Size::Letter : Size::A4;
}

void keepUsualSize(Size size) {
    remembered()->setValue(settingName, size == Size::Letter ? QStringLiteral("letter") : QStringLiteral("a4"));
}

Size sizeOf(const QPrinter& printer) {
    return printer.pageLayout().pageSize().id() == QPageSize::Letter ? Size::Letter : Size::A4;
}

} // namespace interlude::paper
