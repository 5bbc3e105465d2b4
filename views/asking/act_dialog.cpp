#include "views/asking/act_dialog.h"

#include "views/asking/fields.h"

#include <QLineEdit>

namespace interlude {

ActDialog::ActDialog(Bench& bench, const Thing& thing, const QString& id, const QString& title, const QString& verb,
                     QWidget* parent)
    : AskDialog(title, {}, verb, parent), m_bench(bench), m_thing(thing),
      m_id(addLine(QStringLiteral("actId"), thing.caption, id, thing.hint)) {
    m_id->selectAll();
}

QString ActDialog::id() const {
    return m_id->text().trimmed();
}

Outcome<Happening> ActDialog::act() const {
    const auto id = fields::wantText(m_id, m_thing.caption);
    if (!id) return tl::unexpected(id.error());
    return m_build(*id);
}

void ActDialog::begin(std::function<Outcome<Happening>(const QString& id)> build) {
    m_build = std::move(build);
    setAct([this]() -> std::optional<Finding> {
        const auto wanted = act();
        if (!wanted) return wanted.error();
        const auto done = m_bench.perform(*wanted);
        if (!done) return done.error();
        Q_EMIT performed(*done);
        return std::nullopt;
    });
    setCheck([this]() -> Findings {
        const auto wanted = act();
        return wanted ? m_bench.workbench().objections(*wanted, m_bench.who()) : Findings{wanted.error()};
    });
    m_id->setFocus();
    open();
}

} // namespace interlude
