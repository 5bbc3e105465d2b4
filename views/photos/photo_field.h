#pragma once
// The photos of a form: choose files or drop them here; each is checked at once and shown small, with a button to leave it
// out again.

#include "views/photos/photo.h"

#include <QWidget>

class QHBoxLayout;
class QLabel;
class QPushButton;

namespace interlude {

class PhotoField final : public QWidget {
    Q_OBJECT
public:
    explicit PhotoField(QWidget* parent = nullptr);
    const QList<Photo>& photos() const { return m_photos; }
    /// Those that are none are named, the others taken.
    void addFiles(const QStringList& files);
    QString said() const;

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void choose();
    void refresh();
    QList<Photo> m_photos;
    QHBoxLayout* m_row;
    QPushButton* m_add;
    QLabel* m_said;
};

} // namespace interlude
