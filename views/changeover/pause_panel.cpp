#include "views/changeover/pause_panel.h"

#include "views/bench/keys.h"
#include "views/asking/ask_dialog.h"
#include "views/changeover/step_panel.h"
#include "views/words/words.h"

#include <QVBoxLayout>

namespace interlude {

TakeOver::TakeOver(const PrinterNow& printer, bool needed) {
    if (!needed) return;
    if (!printer.part.nozzle.isEmpty()) m_expected.insert(QStringLiteral("part"), printer.part.nozzle);
    if (!printer.support.nozzle.isEmpty()) m_expected.insert(QStringLiteral("support"), printer.support.nozzle);
}

QString TakeOver::next() const {
    for (auto it = m_expected.cbegin(); it != m_expected.cend(); ++it)
        if (!m_given.contains(it.key())) return it.key();
    return {};
}

Outcome<QString> TakeOver::give(const QString& serial, bool typed) {
    for (auto it = m_expected.cbegin(); it != m_expected.cend(); ++it)
        if (it.value() == serial) {
            m_given.insert(it.key(), act::ScanDone{serial, typed});
            return it.key();
        }
    QStringList all = m_expected.values();
    return refusal(QStringLiteral("take-over"), PausePanel::tr("%1 is not what is mounted here").arg(serial),
                   all.isEmpty() ? PausePanel::tr("nothing is to be scanned")
                                 : PausePanel::tr("expected %1; if another one is mounted, stop half way (More) and declare what the printer wears")
                                       .arg(all.join(PausePanel::tr(" or "))));
}

QMap<QString, QString> TakeOver::mounted() const {
    QMap<QString, QString> out;
    for (auto it = m_given.cbegin(); it != m_given.cend(); ++it) out.insert(it.key(), it->value);
    return out;
}

bool takeOverNeeded(const SessionState& session, const QString& who) {
    if (session.interruptions.isEmpty()) return false;
    const Interruption& last = session.interruptions.last();
    return last.handOver || last.who != who;
}

PausePanel::PausePanel(GuideDesk& desk, QWidget* parent) : QWidget(parent), m_desk(desk) {
    setObjectName(QStringLiteral("pausePanel"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2 * look::unit);
    m_title = look::label(look::Text::StepTitle);
    m_note = look::label(look::Text::Detail);
    m_ask = look::mutedLabel(look::Text::Detail);
    m_slots = new QVBoxLayout;
    column->addWidget(m_title);
    column->addWidget(m_note);
    column->addWidget(m_ask);
    column->addLayout(m_slots);
    column->addStretch();
}

void PausePanel::refresh() {
    const SessionState* s = m_desk.session();
    const PrinterNow* printer = s ? m_desk.bench().shop().printer(s->printer) : nullptr;
    if (!s || !printer || s->interruptions.isEmpty()) return;
    const Interruption& last = s->interruptions.last();
    const QString who = m_desk.bench().who();
    const bool needed = takeOverNeeded(*s, who);
    const QString key = QStringLiteral("%1/%2/%3").arg(s->number).arg(s->interruptions.size()).arg(who);
    if (key != m_key) {
        m_key = key;
        m_takeOver = TakeOver(*printer, needed);
        look::clear(m_slots);
        m_byPosition.clear();
        const auto& expected = m_takeOver.expected();
        for (auto it = expected.cbegin(); it != expected.cend(); ++it) {
            const bool part = it.key() == QStringLiteral("part");
            auto* slot = new ScanSlot(QStringLiteral("takeOver-") + it.key(),
                                      part ? tr("Mounted: part nozzle") : tr("Mounted: support nozzle"),
                                      expectedText(m_desk.bench().shop(), it.value()));
            m_byPosition.insert(it.key(), slot);
            m_slots->addWidget(slot);
        }
    }
    m_title->setText(last.handOver ? tr("Handed over") : tr("Paused"));
    m_note->setText(tr("%1, since %2%3").arg(last.who, m_desk.bench().shortTime(last.from),
                                              last.note.isEmpty() ? QString() : QStringLiteral(": ") + last.note));
    m_ask->setText(who.isEmpty() ? tr("Sign in to go on.")
                   : needed      ? tr("%1 goes on: confirm what is mounted by scanning it.").arg(who)
                                 : tr("Press %1 to go on.").arg(keyText(QStringLiteral("guide.confirm"))));
    for (auto it = m_byPosition.cbegin(); it != m_byPosition.cend(); ++it) {
        const auto given = m_takeOver.given().constFind(it.key());
        (*it)->setState(given == m_takeOver.given().cend() ? std::nullopt : std::optional(*given),
                        m_takeOver.next() == it.key());
    }
}

QString PausePanel::confirmText() const {
    const QString next = m_takeOver.next();
    return next.isEmpty() ? tr("Go on") : tr("Go on: scan %1 first").arg(m_takeOver.expected().value(next));
}

void PausePanel::enter(const QString& text, bool typed) {
    auto given = m_takeOver.give(text, typed);
    if (given)
        Q_EMIT m_desk.accepted(typed ? tr("%1 typed").arg(text) : tr("%1 scanned").arg(text));
    else
        Q_EMIT m_desk.wrong(given.error(), true);
    refresh();
}

std::optional<Finding> PausePanel::goOn() {
    if (!complete())
        return Finding{Severity::Refusal, QStringLiteral("take-over"), tr("not yet"), confirmText(), {}, false};
    return findingOf(m_desk.bench().workbench().perform(act::SessionResumed{m_desk.number(), m_takeOver.mounted()},
                                                        m_desk.bench().who()));
}

} // namespace interlude
