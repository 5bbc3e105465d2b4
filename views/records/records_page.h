#pragma once
// Every session, and its record as it will print: print, save, export as a bundle, correct, verify, copy.

#include "model/records/record.h"
#include "views/bench/bench.h"
#include "views/records/record_rows.h"

#include <QTimer>
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

class RecordsPage final : public QWidget {
    Q_OBJECT
public:
    explicit RecordsPage(Bench& bench, QWidget* parent = nullptr);
    ~RecordsPage() override;

    /// Makes that session current; false when there is none.
    bool showRecord(qint64 session);
    /// Number of the session shown; 0 when none.
    qint64 current() const;
    /// Each says in the line under the buttons what was done, or why not; returns false then.
    bool savePdf(const QString& file);
    bool exportBundle(const QString& folder);
    /// Puts the record on paper (or what stands for it) and keeps in the ledger that this revision was issued.
    bool printRecord(QPrinter& printer);
    /// The ledger's chain, and beside it the hash (or the text of the code) of a printed record, unless empty.
    bool verify(const QString& printed = {});
    void copyText();
    /// What the last act said.
    QString said() const;

protected:
    void showEvent(QShowEvent* event) override;

private:
    void buildActs(class QHBoxLayout& row);
    void refresh();
    void showCurrent();
    /// What has happened to the record itself is on the page at once; the ledger's position in its foot follows when acts pause.
    void preview();
    void updateActs();
    void askPrinter();
    /// The empty checklist of the same changeover, to go on with on paper. It is no record and has no revision.
    void askChecklist();
    void askFile(const QString& title, const QString& suggestion, const QString& filter, bool (RecordsPage::*use)(const QString&));
    void askCorrection();
    void askVerify();
    /// The record as it is issued now; empty when that may not be (nobody signed in, for instance), which is said before
    /// anything is written.
    std::optional<Record> toIssue();
    /// The revision that leaves the program is kept in the ledger with the SHA-256 of its PDF.
    bool issued(const QByteArray& sha256, int revision);
    bool issuedFile(const QString& file, int revision);
    void say(const QString& text);
    bool failed(const Finding& finding);
    std::optional<Record> shown() const;

    Bench& m_bench;
    RecordRows m_rows;
    bool m_stale = true; ///< something has happened since the list was made
    bool m_filling = false; ///< rows come: what is current is shown once they are there
    std::pair<qint64, qint64> m_previewed; ///< session, and its last event, as the preview shows it
    QTimer m_previewLater;
    lists::ListModel<RecordRow>* m_model;
    lists::ListView* m_list;
    std::unique_ptr<QPrinter> m_printer;
    QPrintPreviewWidget* m_preview;
    struct Act {
        QPushButton* button;
        bool needsSession, needsPerson;
    };
    QList<Act> m_acts;
    QLabel* m_said;
};

} // namespace interlude
