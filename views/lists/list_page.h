#pragma once
// The shape of a page about things of one kind: acts above, the list, and beside it the chosen row in full,
// where there is room or a person asks for it (Details, or Enter on a row).

#include "views/bench/bench.h"
#include "views/paper/paper.h"

#include <QWidget>

#include <functional>
#include <optional>

class QCheckBox;

namespace interlude {
class ActDialog;
}

namespace interlude::lists {

class ActBar;
class FactPanel;
class ListTable;
class ListView;

class ListPage : public QWidget {
    Q_OBJECT
public:
    ListView* list() const { return m_list; }
    /// Labels of the selected rows (of all shown without a selection), as PDF or on a printer; the pages.
    Outcome<int> writeLabels(const QString& file);
    Outcome<int> printLabels(QPrinter& printer);

protected:
    struct Words {
        QString kind;    ///< what the list is remembered by, and the kind of its labels: "spools"
        QString title;   ///< said to people: "Spools"
        QString acts;    ///< "Acts on spools"
        QString retired; ///< "Show retired spools"
        QString empty;   ///< what to do while there is none
    };
    /// Both are adopted.
    ListPage(Bench& bench, const Words& words, ListTable* model, FactPanel* panel, QWidget* parent);

    /// `text` has its mnemonic; `begin` opens the act's dialog for the row chosen (empty = none).
    void addAct(const QString& text, std::function<ActDialog*(const QString& chosen)> begin);
    void addLabels();
    /// A button for what needs no person yet (choosing a file); `begin` is given the way to say what came of it.
    void addTool(const QString& text, std::function<void(const std::function<void(const QString&)>& say)> begin);
    /// To be called once, after the acts: what stands below them, and the rows. In this order Tab goes through the page.
    void complete();
    /// Fills the model from the shop.
    virtual void fill(bool withRetired) = 0;
    /// A page that is not seen only notes that it is stale and is filled when it is shown.
    void refresh();
    void showEvent(QShowEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    Bench& bench() const { return m_bench; }

private:
    void listen();
    QString detailsKey() const;
    QString retiredKey() const;
    void showDetails();
    void wantDetails(bool shown);
    void showChosen();
    void follow(ActDialog* dialog);
    Outcome<QList<paper::Label>> labels();
    void putLabelsOnPaper();

    Bench& m_bench;
    QString m_kind;
    ActBar* m_acts;
    ListView* m_list;
    QCheckBox* m_withRetired;
    QCheckBox* m_details;
    std::optional<bool> m_wantsDetails; ///< a person's choice; empty = as the room allows
    FactPanel* m_panel;
    bool m_stale = true;
    bool m_filling = false; ///< rows come: what is chosen is shown once they are there
};

} // namespace interlude::lists
