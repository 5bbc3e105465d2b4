#pragma once
// A moment as a person types it: the whole of it at once, or one part of it, by keys or from a calendar. What cannot be read
// stays as it was typed and is said; it is never replaced by something else. Elsewhere it is a QDateTimeEdit like any.

#include "model/findings/finding.h"

#include <QDateTimeEdit>

namespace interlude {

/// "2026-11-27 08:00", with a weekday before it or without (the date decides), with a T between or a blank; the years 2000 to
/// 2199. Empty where it is something else.
std::optional<QDateTime> readMoment(const QString& text);

class TimeField : public QDateTimeEdit {
    Q_OBJECT
public:
    explicit TimeField(QWidget* parent = nullptr);

    /// What stands there cannot be read: `dateTime()` is then what could be read last and must not be used.
    bool isUnreadable() const;
    /// Says so, with the field's accessible name; empty when all is well or the field takes no entry now.
    std::optional<Finding> objection() const;
    void stepBy(int steps) override;

Q_SIGNALS:
    void textTyped();

protected:
    StepEnabled stepEnabled() const override { return StepUpEnabled | StepDownEnabled; }
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    struct Part {
        int from = 0, length = 0;
    };
    enum { Year, Month, Day, Hour, Minute, PartCount };
    /// Where the parts stand in the text; empty unless it can be read.
    QList<Part> parts() const;
    /// The part under the cursor; the day where there is none.
    int partAtCursor() const;
    void selectPart(int part);
    bool moveByPart(int key);
    void take();
    void showTone();
};

} // namespace interlude
