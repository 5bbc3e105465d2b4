#pragma once
// The wall view: Today for eyes two metres away, on the whole screen and without anything to press. What does not fit turns
// in pages; what is wrong now stays. Esc or F11 leaves. Sizes: wall_measure.h.

#include "views/today/wall_face.h"
#include "views/today/wall_measure.h"

#include <QWidget>

namespace interlude {

class WallView final : public QWidget {
    Q_OBJECT
public:
    /// A window of its own. `bench` is borrowed. `pixelsPerMm` goes before what the screen says: for pictures and tests.
    explicit WallView(Bench& bench, std::optional<double> pixelsPerMm = {}, QWidget* parent = nullptr);
    ~WallView() override;

    /// Names of the printers in view, in order.
    QStringList shown() const;
    WallPage page() const;
    WallSizes sizes() const;
    /// How long a page stays.
    static constexpr std::chrono::seconds pageStays{15};

    /// A person's measurement of that screen's visible width, in mm; 0 forgets it.
    static void keepMeasuredWidth(const QString& screen, double mm);
    static std::optional<double> measuredWidth(const QString& screen);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void refresh();
    int turn() const;
    WallGrid grid() const;
    double foot() const;
    void paintCard(QPainter& p, const QRectF& card, const WallFace& face, const WallSizes& s) const;
    void paintFoot(QPainter& p, const QRectF& foot) const;

    Bench& m_bench;
    std::optional<double> m_pixelsPerMm;
    std::unique_ptr<PlanAhead> m_plan;
    QList<WallFace> m_faces;
    QList<Need> m_needs;
    QList<int> m_wrong;
    Milliseconds m_opened;
};

} // namespace interlude
