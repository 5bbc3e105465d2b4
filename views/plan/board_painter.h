#pragma once
// Draws the board: only what is visible, by binary search in each row, from texts laid out beforehand.

#include "views/plan/board_axis.h"
#include "views/plan/board_geometry.h"
#include "views/plan/board_words.h"
#include "views/plan/plan_desk.h"

#include <QBrush>
#include <QColor>

#include <map>

namespace interlude {

/// What the planner points at.
struct BoardMarks {
    std::vector<char> selected, carried; ///< by job; may be shorter than the jobs
    int focus = -1;                      ///< job that the keys act from
    bool hasFocus = false;
    planning::Minute now = 0;
};

/// The room opened in a row for what is dragged there.
struct BoardGap {
    int row = -1, before = -1;
    double left = 0, width = 0; ///< pixels
    double shift = 0;           ///< by so much what follows gives way
};

class BoardPainter {
public:
    explicit BoardPainter(PlanDesk& desk) : m_desk(desk) {}
    /// After every change of the timetable, of the theme or of the fonts. `rows` is borrowed until the next call.
    void prepare(const std::vector<BoardRow>& rows);

    void paint(QPainter& p, const BoardGeometry& g, const BoardMarks& marks);
    /// One row with what lies under it, over whatever was drawn there.
    void paintRow(QPainter& p, const BoardGeometry& g, int row, const BoardMarks& marks, const BoardGap& gap);
    /// What is carried, in the gap.
    void paintGhost(QPainter& p, const BoardGeometry& g, const BoardGap& gap, const std::vector<int>& jobs, bool refused);
    /// Price or refusal beside the pointer, within the view.
    void paintLabel(QPainter& p, const BoardGeometry& g, const QPointF& at, const QString& text, const QString& place,
                    bool refused);

private:
    struct Family {
        QColor tint, edge;
        QBrush hatch;
        const BoardWord* initials = nullptr;
    };
    struct Face {
        const BoardWord *id = nullptr, *title = nullptr, *late = nullptr;
    };
    struct Header {
        const BoardWord *name = nullptr, *setup = nullptr, *state = nullptr;
        bool overdue = false; ///< down beyond its announced end; `state` says so
    };
    struct Mark {
        planning::Minute at = 0, dayEnd = 0;
        const BoardWord *hour = nullptr, *day = nullptr, *shortDay = nullptr; ///< day: at midnights only
    };

    void prepareFamilies();
    void prepareHeaders();
    Face faceOf(const BoardBlock& b);
    const std::vector<Mark>& marksOf(const BoardGeometry& g);

    void paintGround(QPainter& p, const BoardGeometry& g, const QRectF& area);
    void paintRowContent(QPainter& p, const BoardGeometry& g, int row, const BoardMarks& marks, const BoardGap& gap);
    void paintDown(QPainter& p, const BoardGeometry& g, int row);
    void paintBands(QPainter& p, const BoardGeometry& g, int row);
    void paintBand(QPainter& p, const BoardGeometry& g, int row, std::size_t band);
    void paintPreparations(QPainter& p, const BoardGeometry& g, int row);
    void paintDues(QPainter& p, const BoardGeometry& g, int row, const BoardMarks& marks);
    void paintPieces(QPainter& p, const BoardGeometry& g, int row, const BoardBlock& b, double shift);
    void paintBlock(QPainter& p, const BoardGeometry& g, int row, std::size_t block, const BoardMarks& marks, double shift);
    void paintTexts(QPainter& p, const QRectF& r, const BoardBlock& b, const Face& face, const Family& family);
    void paintNarrow(QPainter& p, const QRectF& r, const BoardBlock& b, const Face& face, const Family& family);
    void paintBottomLine(QPainter& p, const QRectF& r, const BoardBlock& b, const Face& face, const Family& family,
                         double from);
    void paintNow(QPainter& p, const BoardGeometry& g, const BoardMarks& marks, const QRectF& area);
    void paintHeaders(QPainter& p, const BoardGeometry& g);
    void paintAxis(QPainter& p, const BoardGeometry& g, const BoardMarks& marks);
    void paintDays(QPainter& p, const BoardGeometry& g);
    void paintCrew(QPainter& p, const BoardGeometry& g);
    void drawWord(QPainter& p, double x, double y, const BoardWord* word, const BoardWords& words);
    const Family& familyOf(int family) const;

    PlanDesk& m_desk;
    const std::vector<BoardRow>* m_rows = nullptr;
    BoardWords m_plain, m_bold;
    std::vector<Family> m_families;
    Family m_noFamily;
    std::vector<std::vector<Face>> m_faces;
    std::vector<std::vector<const BoardWord*>> m_bandWords;
    std::vector<Header> m_headers;
    std::map<int, std::vector<Mark>> m_marks; ///< by step
    planning::Minute m_marksFrom = 0, m_marksTo = 0;
    std::vector<std::pair<const BoardWord*, const BoardWord*>> m_crewWords; ///< long and short, parallel to the calendar
    const BoardWord *m_short = nullptr, *m_dry = nullptr, *m_down = nullptr, *m_crew = nullptr;
};

} // namespace interlude
