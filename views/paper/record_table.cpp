#include "views/paper/record_table.h"

#include <QPainter>

namespace interlude::paper {

namespace {

constexpr double padding = 1.2; ///< above and below a row's text

qsizetype lengthOf(const Rich& text) {
    qsizetype n = 0;
    for (const Piece& piece : text) n += piece.text.size();
    return n;
}

/// Readings in a row that share limits and instrument say these once, after the last of them.
bool sharesRemark(const QList<RecordEntry>& entries, qsizetype i) {
    if (i + 1 >= entries.size()) return false;
    const RecordEntry &a = entries[i], &b = entries[i + 1];
    return a.kind == RecordEntry::Reading && b.kind == RecordEntry::Reading && !a.brief.isEmpty() && a.brief == b.brief;
}

/// The step's title and what was confirmed run on in one paragraph; what is long or unusual has its own.
class StepText {
public:
    explicit StepText(const RecordStep& s) : m_running{{s.title}} {
        if (!s.state.isEmpty()) m_running.append({QStringLiteral("  %1").arg(s.state.toUpper()), Piece::Strong});
        int checked = 0;
        for (qsizetype i = 0; i < s.entries.size(); ++i) {
            const RecordEntry& e = s.entries[i];
            if (e.asRequired && e.corrections.isEmpty()) ++checked;
            else if (sharesRemark(s.entries, i)) add(e, Remark::Later);
            else add(e, i > 0 && sharesRemark(s.entries, i - 1) ? Remark::OfEach : Remark::Own);
        }
        if (checked > 0) append({{checked == 1 ? Words::tr("checked") : Words::tr("checked (%1)").arg(checked), Piece::Soft}});
        end();
        marked(Words::tr("OVERRIDE  "), s.overrides);
        marked(Words::tr("TAKEN BACK  "), s.takenBack);
    }
    const QList<Rich>& paragraphs() const { return m_paragraphs; }

private:
    void append(const Rich& text) {
        if (!m_running.isEmpty()) m_running.append({QStringLiteral(" · "), Piece::Soft});
        m_running += text;
        if (lengthOf(m_running) > 900) end();
    }
    void end() {
        if (!m_running.isEmpty()) m_paragraphs.append(m_running);
        m_running.clear();
    }
    void add(const RecordEntry& e, Remark remark) {
        const Rich text = entryText(e, remark);
        if (lengthOf(text) <= 600) return append(text);
        end();
        for (const QString& part : portions(QStringLiteral("%1: %2").arg(e.label, e.value))) m_paragraphs.append({{part}});
        for (const Piece& piece : text.mid(2))
            for (const QString& part : portions(piece.text)) m_paragraphs.append({{part, piece.emphasis}});
    }
    void marked(const QString& mark, const QStringList& items) {
        for (const QString& item : items)
            for (const QString& part : portions(item)) m_paragraphs.append({{mark, Piece::Strong}, {part}});
    }
    Rich m_running;
    QList<Rich> m_paragraphs;
};

/// The columns beside the step's text.
class Beside {
public:
    explicit Beside(const RecordStep& s) : m_number(QString::number(s.number)) {
        m_minutes = s.actual.isEmpty() ? QStringLiteral("%1 / –").arg(s.planned) : QStringLiteral("%1 / %2").arg(s.planned, s.actual);
        // What was skipped has only the moment in which that was decided.
        m_times = s.begun.isEmpty() ? s.ended : QStringLiteral("%1–%2").arg(s.begun, s.ended);
        // Across midnight the days stand before the times, and each time has its own line.
        if (m_times.size() > 11) m_times.replace(QChar(0x2013), QStringLiteral("–\n"));
        m_who = {{s.who}};
        if (s.late) m_who.append({QLatin1Char(' ') + Words::tr("late"), Piece::Strong});
    }
    double height() const {
        const StepColumns c;
        return std::max({textHeight(m_minutes, Face::Body, c.minutes - 4), textHeight(m_times, Face::Body, c.times - 4),
                         richHeight(m_who, Face::Body, c.who - 6)});
    }
    void paint(QPainter& p, const QRectF& r) const {
        const StepColumns c;
        const double y = r.y() + padding;
        drawText(p, r.x(), y, c.number - 4, m_number, Face::Body, Qt::AlignRight);
        double x = r.x() + c.number + c.step(r.width());
        drawText(p, x + 2, y, c.minutes - 4, m_minutes, Face::Body, Qt::AlignRight);
        x += c.minutes;
        drawText(p, x + 2, y, c.times - 4, m_times, Face::Body, Qt::AlignRight);
        x += c.times;
        drawRich(p, x + 6, y, c.who - 6, m_who, Face::Body);
    }

private:
    QString m_number, m_minutes, m_times;
    Rich m_who;
};

} // namespace

void drawRule(QPainter& p, const QRectF& r) {
    p.setPen(QPen(ink::line(), 0.25));
    p.drawLine(QPointF(r.left(), r.bottom()), QPointF(r.right(), r.bottom()));
}

Rich entryText(const RecordEntry& e, Remark which) {
    const bool corrected = !e.corrections.isEmpty();
    const QString label = e.label + (e.label.endsWith(QLatin1Char('?')) ? QStringLiteral(" ") : QStringLiteral(": "));
    Rich out{{label, Piece::Soft}, {e.value, corrected ? Piece::Struck : Piece::Plain}};
    for (qsizetype i = 0; i < e.corrections.size(); ++i) {
        const RecordCorrection& c = e.corrections[i];
        out.append({QStringLiteral(" ")});
        out.append({c.corrected, i + 1 == e.corrections.size() ? Piece::Strong : Piece::Struck});
        out.append({Words::tr(" (corrected %1 by %2: %3)").arg(c.at, c.who, c.reason)});
    }
    const QString remark = e.brief.isEmpty() ? e.remark : e.brief;
    if (which != Remark::Later && !remark.isEmpty())
        out.append({which == Remark::OfEach ? Words::tr(" (each: %1)").arg(remark) : QStringLiteral(" (%1)").arg(remark), Piece::Soft});
    return out;
}

Block stepTableHead(double width) {
    return {13, [width](QPainter& p, const QRectF& r) {
                const StepColumns c;
                p.fillRect(r, ink::fill());
                double x = r.x();
                const auto cell = [&](double w, const QString& text, Qt::Alignment align, double inset = 2) {
                    drawText(p, x + inset, r.y() + 2.5, w - inset - 2, text, Face::Small, align);
                    x += w;
                };
                cell(c.number, QStringLiteral("#"), Qt::AlignRight, 0);
                cell(c.step(width), Words::tr("step, and what was confirmed"), Qt::AlignLeft, 0);
                cell(c.minutes, Words::tr("plan / act"), Qt::AlignRight);
                cell(c.times, Words::tr("begun–ended"), Qt::AlignRight);
                cell(c.who, Words::tr("who"), Qt::AlignLeft, 6);
            },
            true, true, true};
}

Block stepGroupRow(const QString& group) {
    return {11, [group](QPainter& p, const QRectF& r) { drawText(p, r.x() + StepColumns().number, r.y() + 1, r.width() - 20, group, Face::Bold); },
            true, false, true};
}

QList<Block> stepRows(const RecordStep& s, double width) {
    const StepColumns c;
    const double textWidth = c.step(width) - 4;
    const Beside beside(s);
    QList<Block> out;
    bool first = true;
    QList<Rich> held;
    double height = 2 * padding;
    const auto close = [&] {
        const double whole = first ? std::max(height, beside.height() + 2 * padding) : height;
        out.append({whole,
                    [=](QPainter& p, const QRectF& r) {
                        if (first) beside.paint(p, r);
                        double y = r.y() + padding;
                        for (const Rich& text : held) y += drawRich(p, r.x() + c.number, y, textWidth, text, Face::Body);
                        drawRule(p, r);
                    },
                    false, false, true});
        first = false;
        held.clear();
        height = 2 * padding;
    };
    const StepText said(s);
    for (const Rich& text : said.paragraphs()) {
        const double more = richHeight(text, Face::Body, textWidth);
        if (height + more > tallest && !held.isEmpty()) close();
        held.append(text);
        height += more;
    }
    close();
    return out;
}

} // namespace interlude::paper
