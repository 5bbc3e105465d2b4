#include "views/changeover/session_dialogs.h"

#include "views/photos/photo_field.h"
#include "views/words/words.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>
#include <QPlainTextEdit>

namespace interlude {

namespace {
QString tr(const char* text) {
    return QCoreApplication::translate("session_dialogs", text);
}
} // namespace

QList<Choice> secondPeople(const Bench& bench) {
    QList<Choice> out;
    for (const Person& p : bench.catalogue().fleet.people)
        if (p.initials != bench.who()) out.append({QStringLiteral("%1 · %2").arg(p.initials, p.name), p.initials});
    return out;
}

AskDialog* askOverride(Bench& bench, const QString& title, const Finding& finding,
                       std::function<std::optional<Finding>(const act::Override&)> lift, QWidget* parent) {
    auto* d = new AskDialog(title, sentence(finding), tr("Override"), parent);
    d->setObjectName(QStringLiteral("overrideDialog"));
    QLineEdit* reason = d->addLine(QStringLiteral("overrideReason"), tr("Reason"));
    QList<Choice> people = secondPeople(bench);
    QComboBox* second = nullptr;
    if (!people.isEmpty()) {
        people.prepend({tr("choose"), QString()});
        second = d->addChoice(QStringLiteral("overrideApprover"), tr("Second person"), people);
    }
    d->setAct([=]() -> std::optional<Finding> {
        if (auto f = missingField(tr("Reason"), reason->text())) return f;
        const QString approver = second ? second->currentData().toString() : QString();
        if (second)
            if (auto f = missingField(tr("Second person"), approver)) return f;
        return lift(act::Override{finding.rule, reason->text().trimmed(), approver});
    });
    d->open();
    reason->setFocus();
    return d;
}

AskDialog* askEarlyEnd(GuideDesk& desk, const Countdown& wait, QWidget* parent) {
    const QString left = words::stretch(wait.left(desk.bench().now()).value_or(Milliseconds(0)));
    auto* d = new AskDialog(tr("Not over by the prediction"),
                            tr("“%1” has %2 left. The prediction is an upper end, so it may be over before; a measured temperature is the "
                               "better answer where there is one. What is said here is printed in the record. To cut it short on purpose, skip it.")
                                .arg(wait.title, left),
                            tr("It is over"), parent);
    d->setObjectName(QStringLiteral("earlyEndDialog"));
    QList<Choice> ways{{tr("choose"), QString()}};
    for (const QString& way : {tr("the printer shows it"), tr("seen at the printer")})
        ways.append({way, way});
    QComboBox* why = d->addChoice(QStringLiteral("earlyEndWhy"), tr("How it is known"), ways);
    QLineEdit* note = d->addLine(QStringLiteral("earlyEndNote"), tr("Note (not required)"));
    d->setAct([=, &desk]() -> std::optional<Finding> {
        if (auto f = missingField(tr("How it is known"), why->currentData().toString())) return f;
        const QString said = note->text().trimmed();
        return desk.confirmEarly(why->currentData().toString() + (said.isEmpty() ? QString() : QStringLiteral(", ") + said));
    });
    d->open();
    why->setFocus();
    return d;
}

AskDialog* askTakeBack(GuideDesk& desk, QWidget* parent) {
    const auto step = desk.takeBackable();
    const PlannedStep* planned = step ? desk.session()->changeover.step(*step) : nullptr;
    const QString what = planned ? tr("“%1” becomes open again; its clock goes on from the original start.")
                                       .arg(planned->step.title)
                                 : sentence(step.error());
    auto* d = new AskDialog(tr("Take back"), what, tr("Take back"), parent);
    d->setObjectName(QStringLiteral("takeBackDialog"));
    d->acceptButton()->setEnabled(planned != nullptr);
    QLineEdit* why = d->addLine(QStringLiteral("takeBackReason"), tr("Reason"));
    d->setAct([=, &desk]() -> std::optional<Finding> {
        if (auto f = missingField(tr("Reason"), why->text())) return f;
        return desk.takeBack(why->text().trimmed());
    });
    d->open();
    why->setFocus();
    return d;
}

AskDialog* askProblem(GuideDesk& desk, bool stop, QWidget* parent) {
    auto* d = new AskDialog(stop ? tr("Stop half way") : tr("Problem"),
                            tr("The printer keeps the state that the confirmed steps left. After a stop the next "
                               "changeover starts from there, and no print may start before."),
                            stop ? tr("Stop the changeover") : tr("Note the problem"), parent);
    d->setObjectName(QStringLiteral("problemDialog"));
    QPlainTextEdit* note = d->addNote(QStringLiteral("problemNote"), stop ? tr("Why") : tr("What is wrong"));
    QCheckBox* halt = d->addCheck(QStringLiteral("problemStop"), tr("Stop the changeover here"), stop);
    auto* photos = new PhotoField;
    d->addWidget(tr("Photos"), photos);
    const qint64 session = desk.number();
    const StepId step = desk.shown() ? desk.shown()->step.id : StepId();
    d->setAct([=, &desk]() -> std::optional<Finding> {
        const QString text = note->toPlainText().trimmed();
        if (auto f = missingField(stop ? tr("Why") : tr("What is wrong"), text)) return f;
        Workbench& w = desk.bench().workbench();
        const QString who = desk.bench().who();
        // The photos first: what the ledger names must be there.
        const QString folder = photoFolder(w.store(), w.catalogue().fleet.id);
        QStringList kept;
        for (const Photo& photo : photos->photos()) {
            auto sha256 = keepPhoto(folder, photo);
            if (!sha256) return sha256.error();
            kept << *sha256;
        }
        if (!stop || !kept.isEmpty()) {
            auto noted = w.perform(act::ProblemReported{session, step, text, halt->isChecked(), kept}, who);
            if (!noted) return noted.error();
        }
        const SessionState* s = desk.bench().shop().session(session);
        if (halt->isChecked() && s && s->isOpen()) {
            auto stopped = w.perform(act::SessionStopped{session, text}, who);
            if (!stopped) return stopped.error();
        } else {
            desk.tellNoted();
        }
        return std::nullopt;
    });
    d->open();
    note->setFocus();
    return d;
}

AskDialog* askSkip(GuideDesk& desk, QWidget* parent) {
    const PlannedStep* planned = desk.shown();
    const bool mandatory = planned && (planned->step.mandatory || !planned->mandatoryBecause.isEmpty());
    const QString title = tr("Skip “%1”").arg(planned ? planned->step.title : QString());
    if (mandatory)
        return askOverride(desk.bench(), title,
                           Finding{Severity::Refusal, QStringLiteral("skip"), tr("This step is mandatory"),
                                   tr("skipping it needs a reason and a second person, and is printed"), {}, true},
                           [&desk](const act::Override& o) { return desk.skip(o); }, parent);
    auto* d = new AskDialog(title, tr("This step may be left out; the record says so."), tr("Skip"), parent);
    d->setObjectName(QStringLiteral("overrideDialog"));
    QLineEdit* reason = d->addLine(QStringLiteral("overrideReason"), tr("Reason (not required)"));
    d->setAct([=, &desk] { return desk.skip(act::Override{QStringLiteral("skip"), reason->text().trimmed(), {}}); });
    d->open();
    return d;
}

} // namespace interlude
