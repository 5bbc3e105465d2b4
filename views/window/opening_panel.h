#pragma once
// What stands on the screen while a long ledger is read from its beginning: how far it is, and a way to stop. An opening that
// takes no time shows nothing.

#include <QElapsedTimer>
#include <QWidget>

class QLabel;
class QProgressBar;

namespace interlude {

class OpeningPanel final : public QWidget {
    Q_OBJECT
public:
    explicit OpeningPanel(QWidget* parent = nullptr);

    /// The event read last and the last one that there is. Lets the panel paint and hear its button; false once a person has
    /// stopped it.
    bool show(qint64 read, qint64 all);
    bool wasStopped() const { return m_stopped; }

protected:
    void closeEvent(QCloseEvent* event) override;

private:
    QLabel* m_text;
    QProgressBar* m_bar;
    QElapsedTimer m_begun;
    qint64 m_next; ///< ms since the beginning at which it says more
    bool m_stopped = false;
};

} // namespace interlude
