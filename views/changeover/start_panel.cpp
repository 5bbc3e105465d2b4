#include "views/changeover/start_panel.h"

#include "model/planning/plans/published.h"

#include "views/asking/ask_dialog.h"
#include "views/asking/job_dialog.h"
#include "views/asking/on_paper.h"
#include "views/asking/time_field.h"
#include "views/bench/keys.h"
#include "views/bench/remembered.h"
#include "views/changeover/job_list.h"
#include "views/changeover/session_dialogs.h"
#include "views/changeover/summary_panel.h"
#include "views/look/widgets.h"
#include "views/paper/paper.h"
#include "views/words/words.h"

#include <QApplication>
#include <QCheckBox>
#include <QListWidget>
#include <QRadioButton>
#include <QScopedValueRollback>
#include <QTableView>

namespace interlude {

void StartPanel::choosePrinter(const PrinterId& printer) {
    // A printer that is chosen already without a job is asked for again: after a changeover, or once a plan is published.
    if ((printer == m_draft.printer && !m_draft.job.isEmpty()) || !m_bench.shop().printer(printer)) return;
    m_draft.forget();
    m_draft.printer = printer;
    proposePlanned();
    refresh();
    showJob();
}

/// Once the variants have taken their room: what will be started must be seen in the list, too.
void StartPanel::showJob() {
    QMetaObject::invokeMethod(this, [this] {
        const QScopedValueRollback<bool> filling(m_filling, true);
        if (!m_draft.job.isEmpty()) m_list->select(m_draft.job);
    }, Qt::QueuedConnection);
}

void StartPanel::proposePlanned() {
    const auto planned = planning::nextPlanned(m_bench.shop(), m_draft.printer);
    const Job* job = planned ? m_bench.shop().job(planned->job) : nullptr;
    if (!job) return;
    m_draft.job = job->id;
    m_draft.variant = std::max(0, job->variantNumber(planned->variant));
}

void StartPanel::chooseJob(const JobId& job, int variant) {
    if (job == m_draft.job && variant == m_draft.variant) return;
    m_draft.forget();
    m_draft.job = job;
    m_draft.variant = variant;
    refresh();
}

void StartPanel::refresh() {
    m_filling = true;
    m_jobs->setRows(printableJobs(m_bench.shop()));
    if (m_jobs->rowOf(m_draft.job) < 0) m_draft.job.clear();
    if (m_draft.printer.isEmpty() && !m_bench.catalogue().fleet.printers.isEmpty())
        m_draft.printer = m_bench.catalogue().fleet.printers.first().id;
    fillPrinters();
    if (!m_draft.job.isEmpty() && m_list->currentKey() != m_draft.job) m_list->select(m_draft.job, lists::ListView::Hidden::StaysHidden);
    if (m_draft.job.isEmpty()) m_list->view()->setCurrentIndex({});
    m_filling = false;
    fillVariants();
    judge();
}

void StartPanel::fillPrinters() {
    m_printers->clear();
    for (const PrinterNow& p : m_bench.shop().printers()) {
        QString state = words::activity(p.activity);
        if (p.activity == Activity::Idle && p.open) state = tr("left half way");
        auto* row = new QListWidgetItem(
            QStringLiteral("%1\n%2\n%3").arg(m_bench.catalogue().printerName(p.id),
                                             words::setupNow(m_bench.catalogue(), m_bench.shop().stock(), p), state),
            m_printers);
        row->setData(Qt::UserRole, p.id);
        row->setSizeHint(QSize(10 * look::unit, 9 * look::unit));
        if (p.id == m_draft.printer) m_printers->setCurrentItem(row);
    }
}

void StartPanel::fillVariants() {
    look::clear(m_variants);
    const Job* job = m_bench.shop().job(m_draft.job);
    const QString readOnly = m_bench.who().isEmpty() ? tr("Sign in first%1: the window is read-only.").arg(keyHint(QStringLiteral("sign-in"))) : QString();
    const auto allow = [](QPushButton* b, const QString& whyNot) {
        b->setEnabled(whyNot.isEmpty());
        b->setToolTip(whyNot);
        b->setAccessibleDescription(whyNot);
    };
    allow(m_add, readOnly);
    for (QPushButton* b : {m_change, m_withdraw}) allow(b, readOnly.isEmpty() && !job ? tr("Choose a job first") : readOnly);
    if (!job) return;
    for (int i = 0; i < static_cast<int>(job->variants.size()); ++i) {
        const Variant& v = job->variants.at(i);
        const QString text = QStringLiteral("%1: %2, %3, %4")
                                 .arg(v.name, words::setupWanted(m_bench.catalogue(), v.setup), words::minutes(v.printMinutes(m_draft.printer)),
                                      words::cm3(v.partVolume));
        auto* choice = new QRadioButton(look::shown(text));
        choice->setObjectName(QStringLiteral("variant%1").arg(i));
        choice->setAccessibleName(text);
        choice->setChecked(i == m_draft.variant);
        connect(choice, &QRadioButton::clicked, this, [this, i] {
            QMetaObject::invokeMethod(this, [this, i] { chooseJob(m_draft.job, i); }, Qt::QueuedConnection);
        });
        m_variants->addWidget(choice);
    }
}

void StartPanel::tick() {
    const Instant now = m_bench.now();
    // A list that hangs open is not taken out of a person's hands.
    if (!m_judgedAt || std::chrono::abs(now - *m_judgedAt) < Minutes(1) || QApplication::activePopupWidget()) return;
    m_list->view()->viewport()->update(); // what is overdue now
    const auto result = assemble(m_bench.shop(), m_draft, now);
    if (!result || !m_result || !saySame(*result, *m_result)) return judge();
    m_judgedAt = now;
    m_result = result;
    if (result->ready) m_summary->sayReady(*result->ready);
}

void StartPanel::judge() {
    m_judgedAt = m_bench.now();
    m_result = assemble(m_bench.shop(), m_draft, m_bench.now());
    m_summary->show(m_draft, m_result, tr("Choose a printer on the left and a job, and see here whether and how the "
                                          "printer gets there."));
    const bool can = m_result && m_result->changeover;
    m_printSummary->setEnabled(can);
    m_printChecklist->setEnabled(can);
    QString text = tr("Start the changeover");
    if (m_bench.who().isEmpty()) text = tr("Sign in to start");
    else if (!m_result) text = tr("Choose a job first");
    else if (!can) text = tr("Not possible, see above");
    m_start->setText(text);
    m_start->setEnabled(can && !m_bench.who().isEmpty());
}

void StartPanel::lift(const Finding& finding) {
    askOverride(m_bench, tr("Override"), finding,
                [this](const act::Override& o) -> std::optional<Finding> {
                    m_draft.lifted.append(o);
                    QMetaObject::invokeMethod(this, [this] { judge(); }, Qt::QueuedConnection);
                    return std::nullopt;
                },
                this);
}

std::optional<Finding> StartPanel::start() {
    judge();
    if (!m_result || !m_result->changeover)
        return Finding{Severity::Refusal, QStringLiteral("start"), tr("There is nothing to start"),
                       tr("choose a printer and a job"), {}, false};
    if (m_late->isChecked())
        if (const auto unread = m_lateStart->objection()) {
            say(unread, QString());
            return unread;
        }
    act::SessionStarted begin;
    begin.session = m_bench.shop().nextSession();
    begin.printer = m_draft.printer;
    begin.changeover = *m_result->changeover;
    begin.overrides = m_draft.lifted;
    begin.enteredLate = m_late->isChecked();
    std::optional<Instant> when;
    if (begin.enteredLate) when = zoned(*m_lateStart, m_bench.catalogue().fleet.zone);
    auto done = m_bench.workbench().perform(begin, m_bench.who(), when);
    say(findingOf(done), QString());
    if (!done) return done.error();
    m_late->setChecked(false);
    m_draft.forget();
    m_draft.job.clear();
    Q_EMIT started(begin.printer);
    return std::nullopt;
}

Outcome<Changeover> StartPanel::judged() const {
    if (m_result) return m_result->changeover;
    return refusal(QStringLiteral("paper"), tr("Nothing is chosen yet"), tr("choose a printer and a job"));
}

Outcome<int> StartPanel::writeSummary(const QString& file) const {
    return judged().and_then([&](const Changeover& c) { return paper::writeSummaryPdf(m_bench.shop(), c, m_bench.now(), file); });
}

Outcome<int> StartPanel::printSummary(QPrinter& printer) const {
    return judged().map([&](const Changeover& c) { return paper::paintSummary(m_bench.shop(), c, m_bench.now(), printer); });
}

Outcome<int> StartPanel::writeChecklist(const QString& file) const {
    return judged().and_then(
        [&](const Changeover& c) { return paper::writeRecordPdf(checklistOf(m_bench.shop(), c, m_bench.now()), file); });
}

Outcome<int> StartPanel::printChecklist(QPrinter& printer) const {
    return judged().map(
        [&](const Changeover& c) { return paper::paintRecord(checklistOf(m_bench.shop(), c, m_bench.now()), printer); });
}

void StartPanel::putOnPaper(const QString& title, const QString& name, Outcome<int> (StartPanel::*write)(const QString&) const,
                            Outcome<int> (StartPanel::*print)(QPrinter&) const) {
    interlude::putOnPaper(this,
                          {title, QStringLiteral("%1-%2-%3.pdf").arg(name, m_draft.printer, m_draft.job), uprightLayout(),
                           [=, this](const QString& file) { return (this->*write)(file); },
                           [=, this](QPrinter& printer) { return (this->*print)(printer); }},
                          [this](const Outcome<QString>& said) { say(findingOf(said), said.value_or(QString())); });
}

void StartPanel::say(const std::optional<Finding>& finding, const QString& otherwise) {
    const QString text = finding ? QStringLiteral("▲ ") + sentence(*finding) : otherwise;
    m_message->setText(text);
    look::setTone(m_message, finding ? QStringLiteral("alarm") : QString());
    m_message->setVisible(!text.isEmpty());
}

} // namespace interlude
