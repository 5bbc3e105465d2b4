#pragma once
// A form for one act on one thing of the shop: its first field is the thing's id or serial, scanned or typed; what stands
// against the act is said while the form is filled in.

#include "views/asking/ask_dialog.h"

namespace interlude {

class ActDialog final : public AskDialog {
    Q_OBJECT
public:
    /// The captions of the first field: "Spool", "scan or type its id".
    struct Thing {
        QString caption, hint;
    };
    /// `title` heads the dialog, `verb` is on the button; `id` fills the first field and may be empty.
    ActDialog(Bench& bench, const Thing& thing, const QString& id, const QString& title, const QString& verb,
              QWidget* parent);

    /// The first field, which has the focus.
    QLineEdit* idField() const { return m_id; }
    QString id() const;
    /// `build` makes the act of this id from the fields; a finding says what cannot be read. Call last: it opens the dialog.
    void begin(std::function<Outcome<Happening>(const QString& id)> build);

Q_SIGNALS:
    /// The act was recorded.
    void performed(const interlude::Event& event);

private:
    Outcome<Happening> act() const;

    Bench& m_bench;
    Thing m_thing;
    QLineEdit* m_id;
    std::function<Outcome<Happening>(const QString& id)> m_build;
};

} // namespace interlude
