#pragma once
// Asked before the window closes over a draft that is not published: publish it, discard it, or stay. Opened with `open()`,
// never blocking; deletes itself when closed.

#include <QDialog>

class QPushButton;

namespace interlude {

class LeaveDialog final : public QDialog {
    Q_OBJECT
public:
    /// `whyNotPublished`: what stands against publishing now; empty when nothing does.
    LeaveDialog(const QString& whyNotPublished, QWidget* parent);

    QPushButton* publishButton() const { return m_publish; }
    QPushButton* discardButton() const { return m_discard; }
    QPushButton* stayButton() const { return m_stay; }

Q_SIGNALS:
    void publishWanted();
    void discardWanted();

private:
    QPushButton *m_publish, *m_discard, *m_stay;
};

} // namespace interlude
