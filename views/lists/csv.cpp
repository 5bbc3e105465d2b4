#include "views/lists/csv.h"

#include <QCoreApplication>
#include <QSaveFile>

namespace interlude::lists {

namespace {
QString quoted(QString field) {
    const bool needs = field.contains(QLatin1Char(',')) || field.contains(QLatin1Char('"')) ||
                       field.contains(QLatin1Char('\n')) || field.contains(QLatin1Char('\r'));
    if (!needs) return field;
    field.replace(QLatin1Char('"'), QStringLiteral("\"\""));
    return QLatin1Char('"') + field + QLatin1Char('"');
}
} // namespace

QString csvOf(const QList<QStringList>& rows) {
    QString out;
    for (const QStringList& row : rows) {
        QStringList fields;
        for (const QString& field : row) fields.append(quoted(field));
        out += fields.join(QLatin1Char(',')) + QStringLiteral("\r\n");
    }
    return out;
}

QString tsvOf(const QList<QStringList>& rows) {
    QStringList lines;
    for (const QStringList& row : rows) {
        QStringList fields;
        for (QString field : row) {
            for (const QChar c : {QLatin1Char('\t'), QLatin1Char('\n'), QLatin1Char('\r')}) field.replace(c, QLatin1Char(' '));
            fields.append(field);
        }
        lines.append(fields.join(QLatin1Char('\t')));
    }
    return lines.join(QLatin1Char('\n'));
}

Outcome<int> writeCsv(const QList<QStringList>& rows, const QString& file) {
    QSaveFile out(file);
    const QByteArray bytes = csvOf(rows).toUtf8();
    if (!out.open(QIODevice::WriteOnly) || out.write(bytes) != bytes.size() || !out.commit()) {
        return refusal(QStringLiteral("csv-file"),
                       QCoreApplication::translate("lists", "%1 was not written: %2").arg(file, out.errorString()),
                       QCoreApplication::translate("lists", "choose a folder that may be written"));
    }
    return qMax(0, static_cast<int>(rows.size()) - 1);
}

} // namespace interlude::lists
