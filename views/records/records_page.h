#pragma once
// Every session, and its record as it will print: print, save, export as a bundle, verify the ledger.

#include "model/records/record.h"
#include "views/bench/bench.h"

#include <QWidget>

class QLabel;
class QPrintPreviewWidget;
class QPrinter;
class QPushButton;

namespace interlude {

namespace lists {
class ListView;
template <typename T> class ListModel;
}
struct RecordRow;

class RecordsPage final : public QWidget {
    Q_OBJECT
public:
    explicit RecordsPage(Bench& bench, QWidget* parent = nullptr);
    ~RecordsPage() override;

    /// Makes that session current; false when there is none.
    bool showRecord(qint64 session);
    /// Number of the session shown; 0 when none.
    qint64 current() const;
    /// Each says in the line beside the buttons what was written, or why not; returns false then.
    bool savePdf(const QString& file);
    bool exportBundle(const QString& folder);
    bool verify();

private:
    void refresh();
    void showCurrent();
    void print();
    /// A number of its own for each revision that leaves the program, kept in the ledger.
    bool issued(const QString& file);
    void say(const QString& text);
    bool failed(const Finding& finding);
    std::optional<Record> shown() const;

    Bench& m_bench;
    lists::ListModel<RecordRow>* m_model;
    lists::ListView* m_list;
    std::unique_ptr<QPrinter> m_printer;
    QPrintPreviewWidget* m_preview;
    QList<QPushButton*> m_acts;
    QLabel* m_said;
};

} // namespace interlude
