#pragma once
// A CSV before it is imported: what would come in, what is there already, or everything that stands against the file. A
// large file is read beside the window, which goes on living; reading can be stopped.

#include "model/intake/intake.h"
#include "views/lists/list_model.h"

#include <QDialog>
#include <QTimer>

#include <atomic>
#include <memory>

class QLabel;
class QPlainTextEdit;
class QProgressBar;
class QPushButton;

namespace interlude {

class Bench;

namespace lists {
class ListView;
}

/// One entry of the file as the list shows it.
struct ImportRow {
    QString id;
    QList<lists::Cell> cells;
};
/// Titles of the columns after id and state, and the rows: new entries first.
QStringList importTitles(EntryKind kind);
QList<ImportRow> importRows(const Bench& bench, const Intake& intake);

class ImportDialog final : public QDialog {
    Q_OBJECT
public:
    ImportDialog(Bench& bench, EntryKind kind, const QString& file, QWidget* parent = nullptr);
    ~ImportDialog() override;

    /// Asks for a file, then shows it in such a dialog; `imported` hears what was done.
    static void choose(Bench& bench, EntryKind kind, QWidget* parent, const std::function<void(const QString& said)>& imported);

    /// The file is still being read.
    bool isReading() const { return m_isReading; }
    const Intake& reading() const { return m_reading; }
    QPushButton* importButton() const { return m_import; }
    QPlainTextEdit* problems() const { return m_problems; }

Q_SIGNALS:
    /// Everything is in the ledger; `said` tells it in one sentence.
    void imported(const QString& said);

private:
    struct Progress {
        std::atomic<bool> stop = false;
        std::atomic<double> share = 0;
        std::unique_ptr<IntakeReader> reader; ///< belongs to the reading thread until that has ended
    };
    void build();
    void begin(const QString& file);
    /// The file is read: judges a part of its entries, and is called again until all have been.
    void judge();
    void taken();
    void update();
    QString said() const;
    void enter();

    Bench& m_bench;
    EntryKind m_kind;
    Intake m_reading;
    std::shared_ptr<Progress> m_progress;
    QThread* m_reader = nullptr; ///< null once the file is read
    bool m_isReading = true;
    QTimer m_tick, m_judging;
    lists::ListModel<ImportRow>* m_model;
    lists::ListView* m_list;
    QLabel* m_said;
    QProgressBar* m_bar;
    QPlainTextEdit* m_problems;
    QPushButton *m_import, *m_cancel;
};

} // namespace interlude
