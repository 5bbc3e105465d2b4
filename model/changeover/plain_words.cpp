#include "model/changeover/plain_words.h"

#include <QStringList>

namespace interlude {

QString plainNumber(double value, int decimals) {
    QString text = QString::number(value, 'f', decimals);
    if (!text.contains(QLatin1Char('.')))
        return text;
    while (text.endsWith(QLatin1Char('0')))
        text.chop(1);
    if (text.endsWith(QLatin1Char('.')))
        text.chop(1);
    return text == QStringLiteral("-0") ? QStringLiteral("0") : text;
}

QString plainWords(Temperature t) {
    return plainNumber(t.celsius(), 1) + QStringLiteral(" °C");
}

QString plainWords(Volume v) {
    return plainNumber(v.cm3(), v.mm3() < 10000 ? 2 : 1) + QStringLiteral(" cm³");
}

QString plainWords(Mass m) {
    return plainNumber(m.grams(), m.milligrams() < 10000 ? 1 : 0) + QStringLiteral(" g");
}

QString plainWords(Length l) {
    return plainNumber(l.mm(), 3) + QStringLiteral(" mm");
}

QString plainList(const QStringList& items) {
    if (items.size() < 2)
        return items.join(QString());
    return QStringList(items.mid(0, items.size() - 1)).join(QStringLiteral(", ")) + QStringLiteral(" and ") +
           items.last();
}

} // namespace interlude
