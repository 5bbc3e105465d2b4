#pragma once
// One step, large: title, detail, cautions, protection, power, and a slot for everything that it wants. Shows what the
// desk holds and passes on what a person gives; rebuilt only when another step comes.

#include "views/changeover/guide_desk.h"
#include "views/changeover/reading_field.h"
#include "views/changeover/scan_slot.h"

#include <QPointer>
#include <QScrollArea>

class QGridLayout;
class QVBoxLayout;

namespace interlude {

class StepPanel final : public QScrollArea {
    Q_OBJECT
public:
    explicit StepPanel(GuideDesk& desk, QWidget* parent = nullptr);
    /// Redraws from the desk.
    void refresh();

Q_SIGNALS:
    /// Focus may go back to the scan line.
    void left();

protected:
    bool viewportEvent(QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void rebuild(const PlannedStep& planned);
    void addWords(const PlannedStep& planned);
    QString orderText() const;
    void addPickList();
    void addSlots(const PlannedStep& planned);
    void addMeasure(const StepTemplate& step);
    void addLateTime();
    void addNothingToDo();
    /// Scrolls to what is wanted next when that changes; a person's own scrolling is left alone otherwise.
    void showNext();
    QWidget* slotOf(const Missing& missing) const;
    void refreshNothingToDo();
    void refreshMeanwhile();
    void place(QWidget* slot, bool whole = false);
    void refreshSlots(const StepEntry& entry);
    void refreshMeasure(const StepEntry& entry, const QList<Missing>& missing);
    ReadingField* field(const QString& name, const QString& caption, const QString& unit, const QString& limits);

    GuideDesk& m_desk;
    QString m_key; ///< session and step that the widgets were built for
    QVBoxLayout* m_column;
    QGridLayout* m_grid = nullptr;
    int m_cell = 0, m_columns = 2;
    QLabel* m_digits = nullptr;
    QLabel* m_basis = nullptr;
    QLabel* m_meanwhile = nullptr;
    QList<ScanSlot*> m_scans;
    QList<AnswerSlot*> m_answers;
    QList<QList<ReadingField*>> m_readings;
    ReadingField* m_measure = nullptr;
    ReadingField* m_use = nullptr;
    QPointer<QWidget> m_next;
    bool m_fresh = false; ///< built just now and not laid out yet
    class TimeField* m_late = nullptr;
};

/// What is known of a scanned thing, for the slot: "N-118 · hardened 0.6".
QString expectedText(const Shop& shop, const QString& id);

} // namespace interlude
