#pragma once
// A row of widgets that goes on in further lines where it does not fit into one; nothing in it is ever narrower than it asks.

#include <QLayout>

#include <vector>

namespace interlude::look {

/// On one line it stands as a QHBoxLayout would put it. Lines are broken from the left, each taking what fits; the room left
/// over in a line goes to what grows in it.
class Flow final : public QLayout {
public:
    explicit Flow(QWidget* parent = nullptr);
    ~Flow() override;

    /// `grows`: takes the room left over in its line.
    void add(QWidget* widget, bool grows = false);
    /// Room between its neighbours that grows, or is `width` wide. It stands at the end of a line that is broken after it.
    void addGap();
    void addSpacing(int width);

    void addItem(QLayoutItem* item) override;
    int count() const override;
    QLayoutItem* itemAt(int index) const override;
    QLayoutItem* takeAt(int index) override;
    QSize sizeHint() const override;
    QSize minimumSize() const override;
    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;
    Qt::Orientations expandingDirections() const override { return Qt::Horizontal; }
    void setGeometry(const QRect& rect) override;

private:
    struct Entry {
        QLayoutItem* item;
        bool grows;
    };
    struct Line {
        std::vector<Entry> entries;
        int width = 0, height = 0; ///< as asked for, with the spaces between
    };
    std::vector<Line> lines(int width) const;
    static QSize askedBy(const Entry& e);
    static bool isGap(const Entry& e) { return e.item->spacerItem() != nullptr; }

    std::vector<Entry> m_entries;
};

} // namespace interlude::look
