#pragma once
// All keys in one list, each to be changed: choose a row, press the new key. What stands against it is said at once and
// changes nothing. Back to the preset one by one or all; printed as a page to hang beside the PC.

#include "views/bench/keys.h"
#include "views/paper/sheet.h"

#include <QDialog>

class QLabel;
class QPushButton;

namespace interlude {

namespace lists {
class ListView;
template <typename T> class ListModel;
}
class KeyField;

class KeysDialog final : public QDialog {
    Q_OBJECT
public:
    explicit KeysDialog(QWidget* parent = nullptr);
    lists::ListView* list() const { return m_list; }
    KeyField* field() const { return m_field; }
    QString said() const;

private:
    void refresh();
    void choose();
    void take(const QKeySequence& key);
    void say(const std::optional<Finding>& against, const QString& done);
    void print();
    QString chosen() const;

    lists::ListModel<Keys::Use>* m_model;
    lists::ListView* m_list;
    KeyField* m_field;
    QLabel* m_said;
    QPushButton* m_reset;
    QPushButton* m_resetAll;
};

/// The list as pages, in the order of the places where keys hold.
paper::Sheet keysSheet(paper::Size size);

} // namespace interlude
