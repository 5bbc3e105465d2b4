#pragma once
// The end of a session: what it took against what was planned, the disposition, and Finish.

#include "views/changeover/guide_desk.h"

class QButtonGroup;
class QLineEdit;
class QVBoxLayout;

namespace interlude {

struct FinishFigures {
    int steps = 0, skipped = 0, overrides = 0, corrections = 0, problems = 0;
    Minutes plannedHandsOn{0}, plannedWaiting{0};
    Milliseconds took{0}; ///< from the start to the last confirmation, pauses included
    Milliseconds paused{0};
};
/// What the summary says, from the session alone.
FinishFigures finishFigures(const SessionState& session);

class FinishPanel final : public QWidget {
    Q_OBJECT
public:
    explicit FinishPanel(GuideDesk& desk, QWidget* parent = nullptr);
    void refresh();
    /// Ends the session with the disposition chosen.
    std::optional<Finding> finish();

Q_SIGNALS:
    void confirmAsked();
    void left(); ///< the note is done with

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    GuideDesk& m_desk;
    QLabel* m_summary;
    /// In words; the last one is: held.
    static QStringList dispositions();
    int disposition() const; ///< -1: not chosen
    void setDisposition(int index);
    QLabel* m_question;
    QButtonGroup* m_disposition;
    QLineEdit* m_note;
    /// What was typed and chosen for a session and not confirmed yet; a problem noted since asks for the disposition anew.
    struct Begun {
        QString note;
        int disposition = -1, problems = -1;
    };
    Begun begun() const;
    qint64 m_session = 0; ///< that the fields are about
    int m_problems = -1;  ///< so many were noted when the disposition was last looked at
    QHash<qint64, Begun> m_begun;
};

} // namespace interlude
