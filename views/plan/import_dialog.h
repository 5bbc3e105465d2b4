#pragma once
// Jobs of a CSV before they are imported: what would come in, or everything that stands against the file.

#include "views/lists/list_model.h"
#include "views/plan/job_import.h"

#include <QDialog>

class QLabel;
class QPlainTextEdit;
class QPushButton;

namespace interlude {

namespace lists {
class ListView;
}

class ImportDialog final : public QDialog {
    Q_OBJECT
public:
    ImportDialog(Bench& bench, const QString& file, QWidget* parent = nullptr);

    const JobImport& reading() const { return m_reading; }
    QPushButton* importButton() const { return m_import; }
    QPlainTextEdit* problems() const { return m_problems; }

Q_SIGNALS:
    void imported(int jobs);

private:
    QList<lists::Column<Job>> columns() const;
    void read(const QString& file);
    void update();
    void enter();

    Bench& m_bench;
    JobImport m_reading;
    lists::ListModel<Job>* m_model;
    lists::ListView* m_list;
    QLabel* m_said;
    QPlainTextEdit* m_problems;
    QPushButton* m_import;
};

} // namespace interlude
