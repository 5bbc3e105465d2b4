#pragma once
// The room that something has on the screen: what has enough of it fills it; what has not is never squeezed below what it needs,
// but scrolled.

#include <QScrollArea>

namespace interlude::look {

class Room final : public QScrollArea {
    Q_OBJECT
public:
    enum class Across {
        Scrolls, ///< also sideways; asks for nothing itself
        Fits     ///< never narrower than what is in it, and asks for its height
    };
    /// Adopts what is in it.
    Room(QWidget* inside, Across across, QWidget* parent = nullptr);

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    int heightForWidth(int width) const override;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    bool viewportEvent(QEvent* event) override;

private:
    void fit();
    Across m_across;
};

} // namespace interlude::look
