#include "views/plan/board_painter.h"

#include "views/look/look.h"
#include "views/plan/board.h"
#include "views/plan/board_sentences.h"
#include "views/words/words.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>

namespace interlude {

using planning::Minute;

void BoardWords::setFont(const QFont& font) {
    m_font = font;
    m_words.clear();
}

const BoardWord* BoardWords::of(const QString& text) {
    if (text.isEmpty()) return nullptr;
    const auto [at, isNew] = m_words.try_emplace(text);
    if (isNew) {
        at->second.text = QStaticText(text);
        at->second.text.setTextFormat(Qt::PlainText);
        at->second.text.setPerformanceHint(QStaticText::AggressiveCaching);
        at->second.text.prepare({}, m_font);
        at->second.width = QFontMetricsF(m_font).horizontalAdvance(text);
    }
    return &at->second;
}

void BoardWords::forget() {
    if (m_words.size() > 20'000) m_words.clear();
}

void BoardPainter::prepare(const std::vector<BoardRow>& rows) {
    m_rows = &rows;
    if (m_plain.font() != look::font(look::Text::Small)) {
        m_plain.setFont(look::font(look::Text::Small));
        m_bold.setFont(look::font(look::Text::Small, true));
    }
    m_plain.forget();
    m_bold.forget();
    m_marks.clear();
    m_short = m_plain.of(Board::tr("stock short"));
    m_dry = m_plain.of(Board::tr("dry first"));
    m_down = m_plain.of(Board::tr("down"));
    m_crew = m_plain.of(Board::tr("people"));
    prepareFamilies();
    prepareHeaders();
    m_faces.assign(rows.size(), {});
    m_bandWords.assign(rows.size(), {});
    for (std::size_t r = 0; r < rows.size(); ++r) {
        for (const BoardBlock& b : rows[r].blocks) m_faces[r].push_back(faceOf(b));
        for (const BoardBand& b : rows[r].bands) {
            const QString kept = b.setups == 0 ? Board::tr("setup kept")
                                 : b.setups == 1 ? Board::tr("1 other setup") : Board::tr("%1 other setups").arg(b.setups);
            m_bandWords[r].push_back(m_plain.of(
                Board::tr("%1, %2 jobs, %3").arg(m_desk.problem().chamberFamilies.value(b.family)).arg(b.last - b.first + 1).arg(kept)));
        }
    }
    m_crewWords.clear();
    for (const planning::CrewFrom& c : m_desk.problem().problem.crew) {
        if (c.crew >= planning::unlimitedCrew) m_crewWords.emplace_back(nullptr, nullptr);
        else m_crewWords.emplace_back(m_plain.of(c.crew == 0   ? Board::tr("nobody")
                                                 : c.crew == 1 ? Board::tr("1 person")
                                                               : Board::tr("%1 people").arg(c.crew)),
                                      m_plain.of(QString::number(c.crew)));
    }
}

void BoardPainter::prepareFamilies() {
    const QStringList& names = m_desk.problem().chamberFamilies;
    const look::Colours& c = look::colours();
    m_families.clear();
    for (qsizetype i = 0; i < names.size(); ++i) {
        const int known = look::familyIndex(m_desk.bench().catalogue(), names[i]);
        const int tint = known >= 0 ? known : static_cast<int>(i);
        Family f;
        f.tint = look::familyTint(tint, look::theme());
        f.hatch = look::familyHatch(tint, look::theme());
        f.edge = look::mixed(c.text, f.tint, 0.45);
        f.initials = m_plain.of(look::familyInitials(names[i]));
        m_families.push_back(f);
    }
    m_noFamily.tint = c.line;
    m_noFamily.edge = c.muted;
    m_noFamily.hatch = Qt::NoBrush;
}

const BoardPainter::Family& BoardPainter::familyOf(int family) const {
    return family >= 0 && static_cast<std::size_t>(family) < m_families.size() ? m_families[static_cast<std::size_t>(family)]
                                                                              : m_noFamily;
}

void BoardPainter::prepareHeaders() {
    const Shop& shop = m_desk.bench().shop();
    const QList<PrinterNow> printers = shop.printers();
    const auto& fleet = shop.catalogue().fleet.printers;
    const QFontMetricsF plain(m_plain.font()), bold(m_bold.font());
    const double room = BoardGeometry::headerWidth - 3 * look::unit;
    m_headers.clear();
    for (qsizetype i = 0; i < static_cast<qsizetype>(m_rows->size()); ++i) {
        Header h;
        h.name = m_bold.of(bold.elidedText(fleet.value(i).name, Qt::ElideRight, room));
        if (i < printers.size()) {
            const PrinterNow& now = printers[i];
            h.setup = m_plain.of(plain.elidedText(words::setupNow(shop.catalogue(), shop.stock(), now), Qt::ElideRight, room));
            const QString state = now.job.isEmpty() ? words::activity(now.activity)
                                                    : QStringLiteral("%1 %2").arg(words::activity(now.activity), now.job);
            h.overdue = now.activity == Activity::Down && now.downUntil && *now.downUntil <= m_desk.bench().now();
            h.state = m_plain.of(plain.elidedText(
                h.overdue ? Board::tr("should be back since %1").arg(m_desk.bench().shortTime(*now.downUntil)) : state, Qt::ElideRight, room));
        }
        m_headers.push_back(h);
    }
}

BoardPainter::Face BoardPainter::faceOf(const BoardBlock& b) {
    Face f;
    if (b.job < 0) return f;
    const Job& job = m_desk.problem().jobs[b.job];
    f.id = m_bold.of(job.id);
    f.title = m_plain.of(job.title);
    if (b.late > 0) f.late = m_plain.of(board::lateText(b.late));
    return f;
}

void BoardPainter::drawWord(QPainter& p, double x, double y, const BoardWord* word, const BoardWords& words) {
    if (!word) return;
    if (p.font() != words.font()) p.setFont(words.font());
    p.drawStaticText(QPointF(x, y), word->text);
}

void BoardPainter::paint(QPainter& p, const BoardGeometry& g, const BoardMarks& marks) {
    p.fillRect(QRectF(QPointF(0, 0), g.view), look::colours().panel);
    const QRectF area = g.timeArea();
    p.save();
    p.setClipRect(area);
    paintGround(p, g, area);
    for (int row = g.firstRow(); row <= g.lastRow(); ++row) paintRowContent(p, g, row, marks, {});
    paintNow(p, g, marks, area);
    p.restore();
    paintHeaders(p, g);
    paintAxis(p, g, marks);
}

void BoardPainter::paintRow(QPainter& p, const BoardGeometry& g, int row, const BoardMarks& marks, const BoardGap& gap) {
    const QRectF area = g.rowRect(row).intersected(g.timeArea());
    if (area.isEmpty()) return;
    p.save();
    p.setClipRect(area);
    paintGround(p, g, area);
    paintRowContent(p, g, row, marks, gap);
    paintNow(p, g, marks, area);
    p.restore();
}

void BoardPainter::paintGround(QPainter& p, const BoardGeometry& g, const QRectF& area) {
    const look::Colours& c = look::colours();
    p.fillRect(area, c.panel);
    const auto& crew = m_desk.problem().problem.crew;
    for (std::size_t i = 0; i < crew.size(); ++i) {
        if (crew[i].crew > 0) continue;
        const double left = std::max(area.left(), std::round(g.x(crew[i].from)));
        const double right = i + 1 < crew.size() ? std::min(area.right(), std::round(g.x(crew[i + 1].from))) : area.right();
        if (left > area.right()) break;
        if (right > left) p.fillRect(QRectF(left, area.top(), right - left, area.height()), c.ground);
    }
    p.setPen(c.line);
    for (const Mark& m : marksOf(g)) {
        const double x = std::round(g.x(m.at)) + 0.5;
        if (x > area.right()) break;
        if (x >= area.left()) p.drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()));
    }
}

void BoardPainter::paintRowContent(QPainter& p, const BoardGeometry& g, int row, const BoardMarks& marks,
                                   const BoardGap& gap) {
    const BoardRow& r = (*m_rows)[static_cast<std::size_t>(row)];
    p.setPen(look::colours().line);
    const double bottom = g.y(row) + g.rowHeight - 0.5;
    p.drawLine(QPointF(BoardGeometry::headerWidth, bottom), QPointF(g.view.width(), bottom));
    paintDown(p, g, row);
    if (gap.row != row) {
        paintBands(p, g, row);
        paintPreparations(p, g, row);
        paintDues(p, g, row, marks);
    }
    const Minute shifted = static_cast<Minute>((gap.row == row ? gap.shift : 0.0) / g.pxPerMinute) + 1;
    const Minute last = g.lastVisible();
    for (std::size_t i = firstEndingAfter(r, g.firstVisible() - shifted); i < r.blocks.size(); ++i) {
        const double shift = gap.row == row && static_cast<int>(i) >= gap.before ? gap.shift : 0;
        if (r.blocks[i].from > last) break;
        paintBlock(p, g, row, i, marks, shift);
    }
}

void BoardPainter::paintNow(QPainter& p, const BoardGeometry& g, const BoardMarks& marks, const QRectF& area) {
    const double x = std::round(g.x(marks.now));
    if (x + 2 < area.left() || x > area.right()) return;
    p.fillRect(QRectF(x, area.top(), 2, area.height()), look::colours().accent);
}

} // namespace interlude
