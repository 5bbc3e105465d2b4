#include "views/today/wall_view.h"

#include "views/bench/remembered.h"
#include "views/look/look.h"
#include "views/today/plan_ahead.h"
#include "views/today/wall_text.h"

#include <QPainter>
#include <QScreen>

namespace interlude {

namespace {

constexpr std::chrono::hours ahead{16};

QString widthKey(const QString& screen) {
    return QStringLiteral("wall/width-mm/%1").arg(QString(screen).replace(QLatin1Char('/'), QLatin1Char('_')));
}

} // namespace

WallView::WallView(Bench& bench, std::optional<double> pixelsPerMm, QWidget* parent)
    : QWidget(parent, Qt::Window), m_bench(bench), m_pixelsPerMm(pixelsPerMm), m_plan(std::make_unique<PlanAhead>(bench)),
      m_opened(bench.workbench().clock().running()) {
    setObjectName(QStringLiteral("wallView"));
    setWindowTitle(tr("Interlude · wall view"));
    setFocusPolicy(Qt::StrongFocus);
    setAttribute(Qt::WA_OpaquePaintEvent);
    setCursor(Qt::BlankCursor); // nothing here is to be pressed
    connect(&bench, &Bench::changed, this, &WallView::refresh);
    connect(&bench, &Bench::ticked, this, &WallView::refresh);
    refresh();
}

WallView::~WallView() = default;

void WallView::keepMeasuredWidth(const QString& screen, double mm) {
    if (mm > 0) remembered()->setValue(widthKey(screen), mm);
    else remembered()->remove(widthKey(screen));
}

std::optional<double> WallView::measuredWidth(const QString& screen) {
    const double mm = remembered()->value(widthKey(screen)).toDouble();
    return mm > 0 ? std::optional(mm) : std::nullopt;
}

WallSizes WallView::sizes() const {
    if (m_pixelsPerMm) return wallSizes(*m_pixelsPerMm);
    const QScreen* on = screen();
    return wallSizes(on ? wallDensity(on->size(), on->physicalSize(), measuredWidth(on->name())).perMm
                        : wallDensity({}, {}).perMm);
}

double WallView::foot() const {
    return sizes().foot();
}

WallGrid WallView::grid() const {
    return wallGrid(QSizeF(width(), height() - foot()), sizes(), static_cast<int>(m_faces.size()));
}

int WallView::turn() const {
    return static_cast<int>((m_bench.workbench().clock().running() - m_opened) / pageStays);
}

WallPage WallView::page() const {
    return wallPage(static_cast<int>(m_faces.size()), m_wrong, grid().capacity(), turn());
}

QStringList WallView::shown() const {
    QStringList out;
    for (const int i : page().shown) out << m_faces.at(i).name;
    return out;
}

void WallView::refresh() {
    m_needs = allNeeds(m_bench, m_plan.get(), m_bench.now() + ahead);
    m_faces.clear();
    m_wrong.clear();
    QStringList sentences;
    for (const PrinterNow& p : m_bench.shop().printers()) {
        const WallFace face = wallFace(m_bench, p, m_plan.get(), m_needs);
        if (face.wrong || face.late) m_wrong.append(static_cast<int>(m_faces.size()));
        m_faces.append(face);
        sentences << wallSentence(face);
    }
    setAccessibleName(tr("Wall view: %1").arg(sentences.join(QStringLiteral(". "))));
    update();
}

void WallView::paintEvent(QPaintEvent*) {
    QPainter p(this);
    p.setRenderHint(QPainter::Antialiasing);
    p.fillRect(rect(), look::colours().ground);
    const WallGrid g = grid();
    const WallPage shown = page();
    WallSizes s = sizes();
    s.capital *= g.larger;
    s.digit *= g.larger;
    const double foot = this->foot(), gap = look::unit;
    const double w = (width() - gap) / g.columns - gap, h = (height() - foot - gap) / g.rows - gap;
    for (int i = 0; i < static_cast<int>(shown.shown.size()); ++i)
        paintCard(p, QRectF(gap + (i % g.columns) * (w + gap), gap + (i / g.columns) * (h + gap), w, h),
                  m_faces.at(shown.shown.at(i)), s);
    if (m_faces.isEmpty()) {
        p.setPen(look::colours().text);
        p.setFont(look::fontOfHeight(s.capital));
        p.drawText(rect(), Qt::AlignCenter, tr("No printers"));
    }
    paintFoot(p, QRectF(2 * gap, height() - foot, width() - 4 * gap, foot));
}

void WallView::paintCard(QPainter& p, const QRectF& card, const WallFace& f, const WallSizes& s) const {
    const look::Colours& c = look::colours();
    const bool marked = f.wrong || f.late || f.inHand;
    p.setPen(QPen(f.wrong || f.late ? c.alarm : f.inHand ? c.accent : c.line, marked ? look::unit / 2.0 : 1));
    p.setBrush(c.panel);
    p.drawRoundedRect(card.adjusted(1, 1, -1, -1), look::radius, look::radius);
    const QFont bold = look::fontOfHeight(s.capital, true), plain = look::fontOfHeight(s.capital);
    const double pad = s.inset() + look::unit, left = card.left() + pad, width = card.width() - 2 * pad;
    // Lines stand together in the middle of the card, however high it is.
    double y = card.top() + (card.height() - s.card().height()) / 2 + s.inset() + s.capital;
    const QString name = firstFitting({f.name}, bold, width);
    p.setPen(c.text);
    p.setFont(bold);
    p.drawText(QPointF(left, y), name);
    const double rest = width - QFontMetricsF(bold).horizontalAdvance(name) - s.capital;
    if (const QString next = firstFitting(f.next, plain, rest); !next.isEmpty() && (f.late || f.next.contains(next))) {
        p.setPen(f.late ? c.alarm : c.soft);
        p.setFont(plain);
        p.drawText(QPointF(left + width - QFontMetricsF(plain).horizontalAdvance(next), y), next);
    }
    y += s.toFigure();
    p.setPen(c.text);
    paintFigure(p, f.big, QPointF(left, y), width, s.digit, s.capital);
    y += s.toState();
    p.setPen(f.wrong ? c.alarm : c.text);
    p.setFont(f.wrong ? bold : plain);
    p.drawText(QPointF(left, y), firstFitting(f.state, p.font(), width));
    y += s.toPeople();
    p.setPen(f.inHand ? c.accent : c.soft);
    p.setFont(f.inHand ? bold : plain);
    p.drawText(QPointF(left, y), firstFitting(f.people, p.font(), width));
}

void WallView::paintFoot(QPainter& p, const QRectF& foot) const {
    const look::Colours& c = look::colours();
    const WallSizes s = sizes();
    const QFont bold = look::fontOfHeight(s.capital, true), plain = look::fontOfHeight(s.capital);
    const QFontMetricsF metrics(plain);
    const double y = foot.top() + s.capital + look::unit / 2.0, gap = s.capital;
    const WallPage shown = page();
    const QString clock = toZone(m_bench.now(), m_bench.catalogue().fleet.zone).toString(QStringLiteral("HH:mm"));
    p.setPen(c.text);
    p.setFont(bold);
    p.drawText(QPointF(foot.left(), y), clock);
    double left = foot.left() + QFontMetricsF(bold).horizontalAdvance(clock) + gap, right = foot.right();
    p.setFont(plain);
    p.setPen(c.soft);
    const auto atRight = [&](const QString& text) {
        right -= metrics.horizontalAdvance(text);
        p.drawText(QPointF(right, y), text);
        right -= gap;
    };
    if (shown.of > 1) atRight(QStringLiteral("%1/%2").arg(shown.number).arg(shown.of));
    if (m_bench.workbench().isExample()) atRight(tr("example"));
    if (!shown.wrongElsewhere.isEmpty()) {
        QStringList names;
        for (const int i : shown.wrongElsewhere) names << m_faces.at(i).name;
        p.setPen(c.alarm);
        p.setFont(bold);
        const QString all = names.join(QStringLiteral(", "));
        p.drawText(QPointF(left, y), firstFitting({tr("▲ wrong too: %1").arg(all), tr("▲ also %1").arg(all),
                                                   tr("▲ %1 more wrong").arg(names.size())}, bold, right - left));
        return;
    }
    // The next calls for people, as many as there is room for.
    for (const QString& call : callWords(m_bench, m_needs)) {
        if (left + metrics.horizontalAdvance(call) > right) break;
        p.drawText(QPointF(left, y), call);
        left += metrics.horizontalAdvance(call) + gap;
    }
}

} // namespace interlude
