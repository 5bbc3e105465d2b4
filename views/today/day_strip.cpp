#include "views/today/day_strip.h"

#include <QPainter>

namespace interlude {

namespace {

QString kindWord(Stretch::Kind kind) {
    switch (kind) {
    case Stretch::Kind::Print: return DayStrip::tr("prints");
    case Stretch::Kind::HandsOn: return DayStrip::tr("hands-on");
    case Stretch::Kind::Waiting: return DayStrip::tr("waiting");
    case Stretch::Kind::Down: break;
    }
    return DayStrip::tr("down");
}

} // namespace

QString stripSentence(const QList<Stretch>& stretches, const QTimeZone& zone) {
    QStringList parts;
    const auto clock = [&](Instant t) { return toZone(t, zone).toString(QStringLiteral("HH:mm")); };
    for (qsizetype i = 0; i < stretches.size();) {
        qsizetype last = i;
        Instant to = stretches.at(i).to;
        while (last + 1 < stretches.size() && stretches.at(last + 1).kind == stretches.at(i).kind) {
            ++last;
            to = std::max(to, stretches.at(last).to);
        }
        const Stretch& s = stretches.at(i);
        parts << (s.open ? DayStrip::tr("%1 since %2, end not known").arg(kindWord(s.kind), clock(s.from))
                         : DayStrip::tr("%1 %2 to %3").arg(kindWord(s.kind), clock(s.from), clock(to)));
        i = last + 1;
    }
    return parts.isEmpty() ? DayStrip::tr("Nothing is known of the next 16 hours.")
                           : DayStrip::tr("Next 16 hours: %1.").arg(parts.join(QStringLiteral("; ")));
}

DayStrip::DayStrip(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setFixedHeight(5 * look::unit);
}

void DayStrip::show(const QList<Stretch>& stretches, const Catalogue& catalogue, Instant now) {
    m_stretches = stretches;
    m_now = now;
    m_zone = catalogue.fleet.zone;
    QStringList families;
    for (const Material& m : catalogue.materials) {
        if (!families.contains(m.chamberFamily)) families.append(m.chamberFamily);
        m_families.insert(m.id, static_cast<int>(families.indexOf(m.chamberFamily)));
        m_initials.insert(m.id, look::familyInitials(m.chamberFamily));
    }
    const QString sentence = stripSentence(stretches, m_zone);
    setAccessibleName(sentence);
    setToolTip(sentence);
    update();
}

int DayStrip::familyOf(const MaterialId& material) const {
    return m_families.value(material, 0);
}

void DayStrip::paintStretch(QPainter& p, const Stretch& s, const QRectF& r) const {
    const look::Colours& c = look::colours();
    p.setPen(Qt::NoPen);
    switch (s.kind) {
    case Stretch::Kind::Print:
        p.fillRect(r, look::familyTint(familyOf(s.material), look::theme()));
        p.fillRect(r, look::familyHatch(familyOf(s.material), look::theme()));
        if (r.width() > 28) {
            p.setPen(c.text);
            p.drawText(r.adjusted(4, 0, 0, 0), Qt::AlignVCenter, m_initials.value(s.material));
        }
        break;
    case Stretch::Kind::HandsOn: p.fillRect(r, c.text); break;
    case Stretch::Kind::Waiting:
        p.fillRect(QRectF(r.left(), r.center().y() - 3, r.width(), 6), c.muted);
        break;
    case Stretch::Kind::Down:
        p.fillRect(r, c.line);
        p.fillRect(r, QBrush(c.muted, Qt::BDiagPattern));
        break;
    }
}

void DayStrip::paintEvent(QPaintEvent*) {
    QPainter p(this);
    const look::Colours& c = look::colours();
    const StripGeometry g{m_now, 16, static_cast<double>(width())};
    p.setFont(look::font(look::Text::Small));
    const int labels = 2 * look::unit;
    const double top = labels + 2, height = this->height() - labels - 4;
    for (const Instant mark : g.marks(m_zone)) {
        const double x = g.x(mark);
        p.setPen(c.muted);
        const QString hour = toZone(mark, m_zone).toString(QStringLiteral("HH"));
        if (x > 8 && x < width() - 8) p.drawText(QRectF(x - 12, 0, 24, labels), Qt::AlignHCenter, hour);
    }
    p.setPen(c.line);
    p.drawLine(QPointF(0, top + height), QPointF(width(), top + height));
    // Waits lie under the hands-on work that goes on beside them.
    for (const bool waits : {true, false})
        for (const Stretch& s : m_stretches) {
            if ((s.kind == Stretch::Kind::Waiting) != waits) continue;
            const double from = g.x(s.from), to = s.open && s.kind == Stretch::Kind::Down ? width() : g.x(s.to);
            paintStretch(p, s, QRectF(from, top, std::max(2.0, to - from), height));
        }
}

} // namespace interlude
