#pragma once
// The next 16 hours of one printer as a strip: prints in family tint with hatch, changeovers split into hands-on and
// waiting, downtime crossed out; hours above it. A sentence says the same.

#include "views/look/look.h"
#include "views/today/outlook.h"
#include "views/today/strip_geometry.h"

#include <QWidget>

namespace interlude {

class DayStrip final : public QWidget {
    Q_OBJECT
public:
    explicit DayStrip(QWidget* parent = nullptr);
    void show(const QList<Stretch>& stretches, const Catalogue& catalogue, Instant now);
    QSize sizeHint() const override { return {40 * look::unit, 5 * look::unit}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void paintStretch(QPainter& p, const Stretch& s, const QRectF& r) const;
    int familyOf(const MaterialId& material) const;
    QList<Stretch> m_stretches;
    QMap<MaterialId, int> m_families;
    QMap<MaterialId, QString> m_initials;
    QTimeZone m_zone{QByteArrayLiteral("UTC")};
    Instant m_now;
};

/// "Until 20:12 Print of 7408; 20:12 to 20:30 hands-on, Part out". Consecutive steps of one kind are told together.
QString stripSentence(const QList<Stretch>& stretches, const QTimeZone& zone);

} // namespace interlude
