#pragma once
// The board of the Plan tab: printers as rows, time to the right. Shows the desk's timetable, selects, and moves jobs by
// mouse, by keys, and by drops from elsewhere (MIME type `plan_words::mimeType`). A drag shows price or refusal before the drop.

#include "views/plan/board_drag.h"
#include "views/plan/board_painter.h"

#include <QAbstractScrollArea>
#include <QBasicTimer>
#include <QPixmap>
#include <QPointer>
#include <QTimer>

class QDropEvent;

namespace interlude {

class Board final : public QAbstractScrollArea {
    Q_OBJECT
public:
    /// `desk` is borrowed and outlives the board.
    explicit Board(PlanDesk& desk, QWidget* parent = nullptr);
    ~Board() override;

    const BoardGeometry& shape() const { return m_shape; }
    const std::vector<BoardRow>& rows() const { return m_rows; }
    /// The job that the keys act from; -1 when there is none on the board.
    int focusJob() const { return m_marks.focus; }
    /// Where a job is drawn, in the viewport; empty when it is on no printer.
    QRectF rectOf(int job) const;
    bool dragging() const { return m_drag.active(); }
    /// Price or refusal of the drop as it stands; empty while it is not known.
    QString offered() const { return m_drag.text(); }
    QSize sizeHint() const override { return {800, 600}; }
    QSize minimumSizeHint() const override { return {360, 240}; }

public Q_SLOTS:
    void zoomIn();
    void zoomOut();
    /// The whole plan at once.
    void fit();
    /// Scrolls until the job is seen, and makes it the one that keys act from.
    void reveal(int job);

Q_SIGNALS:
    /// A double click or Enter.
    void opened(int job);
    /// What a move costs, what came of it, or why it is refused: for a status line and for assistive technology.
    void told(const QString& text);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void scrollContentsBy(int dx, int dy) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dragMoveEvent(QDragMoveEvent* event) override;
    void dragLeaveEvent(QDragLeaveEvent* event) override;
    void dropEvent(QDropEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void changeEvent(QEvent* event) override;
    void timerEvent(QTimerEvent* event) override;
    bool event(QEvent* event) override;
    bool viewportEvent(QEvent* event) override;

private:
    /// Row and index of a block.
    struct Spot {
        int row = -1, block = -1;
        bool valid() const { return row >= 0 && block >= 0; }
    };
    enum class Mouse { Up, Pressed, Rubber, Carrying };

    // what is shown
    void rebuild();
    void readSelection();
    void measure();
    void showBars();
    void readBars();
    void moveNow();
    void redraw();
    void describe();
    const BoardBlock& block(const Spot& s) const;
    Spot spotOf(int job) const;
    void zoomAround(double x, double factor);
    void reveal(const QRectF& r);
    void paintOverlay(QPainter& p);
    BoardGap gap() const;

    // selection
    void focusOn(int job, bool extends = false);
    void toggle(int job);
    void selectThrough(int job);
    std::vector<int> bandJobs(const BoardHit& hit) const;
    std::vector<int> inTimeOrder(const std::vector<int>& jobs) const;
    void press(const BoardHit& hit, Qt::KeyboardModifiers with);
    void rubberTo(const QPointF& to);

    // drag
    void carry(const std::vector<int>& jobs);
    void startCarrying();
    void carryTo(const QPointF& at);
    void settle();
    bool finishCarrying();
    void stopCarrying();
    void carryOut();
    void scrollAtEdges();
    QPointF edgePull() const;

    // keys
    bool walkKey(QKeyEvent* event);
    bool viewKey(QKeyEvent* event);
    bool moveKey(QKeyEvent* event);
    void walk(int key, bool extends);
    void moveInRow(int by);
    void moveToRow(int by);
    bool dropSelected(const std::vector<int>& jobs, const DropPlace& place, const QString& before = {});
    void takeOut();
    void lock();
    void selectFamilyRun();
    std::vector<int> movableSelection();

    PlanDesk& m_desk;
    std::vector<BoardRow> m_rows;
    std::vector<Spot> m_spots; ///< by job
    BoardGeometry m_shape;
    BoardPainter m_painter;
    BoardMarks m_marks;
    BoardDrag m_drag;
    QString m_focusId; ///< survives another numbering
    int m_anchor = -1; ///< where a range begins
    bool m_zoomed = false, m_fitted = false, m_settingBars = false;

    Mouse m_mouse = Mouse::Up;
    QPointF m_pressed, m_pointer;
    Qt::KeyboardModifiers m_pressedWith;
    BoardHit m_pressedOn;
    QRectF m_rubber;
    std::vector<int> m_beforeRubber;
    QPixmap m_layer; ///< everything but what follows the pointer
    bool m_layerValid = false;
    QTimer m_offerTimer;
    QBasicTimer m_edgeTimer;
};

} // namespace interlude
