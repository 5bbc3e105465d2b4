#pragma once
// The headings of a list. The arrow of the sorted column is part of its text, so that neither covers the other.

#include <QHeaderView>

namespace interlude::lists {

class Heading final : public QHeaderView {
    Q_OBJECT
public:
    explicit Heading(QWidget* parent = nullptr);
    /// The width at which this heading is never cut, sorted or not.
    int wantedWidth(int section) const;

protected:
    void initStyleOptionForIndex(QStyleOptionHeader* option, int section) const override;
};

} // namespace interlude::lists
