#include "views/today/printer_card.h"

#include "views/bench/keys.h"
#include "views/today/day_strip.h"
#include "views/today/digits.h"
#include "views/today/plan_ahead.h"
#include "views/today/printer_dialogs.h"

#include <QHBoxLayout>
#include <QMenu>

namespace interlude {

namespace {

/// Why nothing can be recorded now; empty where somebody is signed in.
QString signInFirst(const Bench& bench) {
    if (!bench.who().isEmpty()) return {};
    return PrinterCard::tr("Sign in first%1: the window is read-only.").arg(keyHint(QStringLiteral("sign-in")));
}

} // namespace

PrinterCard::PrinterCard(Bench& bench, const PrinterId& printer, const PlanAhead* plan, QWidget* parent)
    : Panel({}, parent), m_bench(bench), m_printer(printer), m_plan(plan) {
    setObjectName(QStringLiteral("card-") + printer);
    body()->setSpacing(look::unit / 2);
    auto* head = new QHBoxLayout;
    m_name = look::label(look::Text::PanelTitle);
    m_name->setWordWrap(false);
    m_setup = look::mutedLabel(look::Text::Detail);
    m_setup->setWordWrap(false);
    m_setup->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    head->addWidget(m_name);
    head->addWidget(m_setup, 1);
    m_state = look::label(look::Text::Body);
    m_state->setObjectName(QStringLiteral("cardState"));
    m_wrong = look::label(look::Text::Body, {}, true);
    m_wrong->setObjectName(QStringLiteral("cardWrong"));
    look::setTone(m_wrong, QStringLiteral("alarm"));
    m_digits = new Digits;
    m_digits->setObjectName(QStringLiteral("cardDigits"));
    m_below = look::label(look::Text::Body);
    m_below->setObjectName(QStringLiteral("cardBelow"));
    m_countdowns = look::mutedLabel(look::Text::Body);
    m_strip = new DayStrip;
    m_act = look::button({});
    m_act->setObjectName(QStringLiteral("cardAct"));
    m_more = look::button(tr("More"));
    m_more->setObjectName(QStringLiteral("cardMore"));
    auto* menu = new QMenu(m_more);
    m_more->setMenu(menu);
    connect(menu, &QMenu::aboutToShow, this, [this, menu] { fillMenu(menu); });
    connect(m_act, &QPushButton::clicked, this, &PrinterCard::doAct);
    auto* foot = new QHBoxLayout;
    foot->addWidget(m_act, 1);
    foot->addWidget(m_more);
    body()->addLayout(head);
    for (QWidget* w : {static_cast<QWidget*>(m_state), static_cast<QWidget*>(m_wrong), static_cast<QWidget*>(m_digits),
                       static_cast<QWidget*>(m_below), static_cast<QWidget*>(m_countdowns)})
        body()->addWidget(w);
    body()->addStretch(1);
    body()->addWidget(m_strip);
    body()->addLayout(foot);
    fillMenu(menu);
    refresh();
}

QString PrinterCard::actText(const CardFace& f) const {
    if (f.act == QStringLiteral("print-ended")) return tr("Print ended…");
    if (f.act == QStringLiteral("part-removed")) return tr("Part removed");
    if (f.act == QStringLiteral("up")) return tr("Up again");
    return m_bench.shop().openSession(m_printer) ? tr("Go to the guide") : tr("Start a changeover");
}

void PrinterCard::refresh() {
    const PrinterNow* p = m_bench.shop().printer(m_printer);
    if (!p) return;
    m_face = cardFace(m_bench, *p, m_plan);
    m_name->setText(m_face.name);
    m_setup->setText(m_face.setup);
    m_setup->setToolTip(m_face.setup);
    m_state->setText(m_face.state);
    m_wrong->setText(QStringLiteral("▲ ") + m_face.wrong);
    m_wrong->setVisible(!m_face.wrong.isEmpty());
    m_digits->setText(m_face.big);
    m_digits->setVisible(m_face.big != QStringLiteral("—")); // nothing to count is said in words below
    m_below->setText(m_face.below);
    m_countdowns->setText(m_face.countdowns.join(QLatin1Char('\n')));
    m_countdowns->setVisible(!m_face.countdowns.isEmpty());
    QList<Stretch> hours = outlook(m_bench.shop(), *p, m_bench.now());
    if (m_plan) hours += m_plan->stretches(m_printer, m_bench.now() + std::chrono::hours(16));
    m_strip->show(hours, m_bench.catalogue(), m_bench.now());
    const QString text = actText(m_face), whyNot = m_face.act == QStringLiteral("changeover") ? QString() : signInFirst(m_bench);
    m_act->setText(text);
    m_act->setEnabled(whyNot.isEmpty());
    m_act->setToolTip(whyNot);
    m_act->setAccessibleDescription(whyNot);
    m_act->setAccessibleName(QStringLiteral("%1: %2").arg(m_face.name, text));
    m_more->setAccessibleName(tr("%1: more acts").arg(m_face.name));
    setMark(!m_face.wrong.isEmpty() ? Mark::Wrong : m_face.inHand ? Mark::InHand : Mark::None);
    setAccessibleName(QStringLiteral("%1, %2. %3 %4 %5. %6")
                          .arg(m_face.name, m_face.setup, m_face.state, m_face.big, m_face.below, m_face.wrong));
}

void PrinterCard::doAct() {
    if (m_face.act == QStringLiteral("print-ended"))
        askPrintEnded(m_bench, m_printer, this);
    else if (m_face.act == QStringLiteral("part-removed"))
        m_bench.perform(act::PartRemoved{m_printer});
    else if (m_face.act == QStringLiteral("up"))
        m_bench.perform(act::DowntimeEnded{m_printer});
    else
        Q_EMIT m_bench.openChangeover(m_printer);
}

void PrinterCard::fillMenu(QMenu* menu) {
    menu->clear();
    menu->setToolTipsVisible(true);
    const PrinterNow* p = m_bench.shop().printer(m_printer);
    if (!p) return;
    const QString readOnly = signInFirst(m_bench);
    const auto add = [&](const QString& name, const QString& text, bool enabled, std::function<void()> what) {
        QAction* a = menu->addAction(text);
        const bool records = name != QStringLiteral("actChangeover");
        a->setObjectName(name);
        a->setEnabled(enabled && (!records || readOnly.isEmpty()));
        if (records && !readOnly.isEmpty()) a->setToolTip(readOnly);
        connect(a, &QAction::triggered, this, std::move(what));
    };
    const bool down = p->activity == Activity::Down;
    const bool open = m_bench.shop().openSession(m_printer) != nullptr;
    add(QStringLiteral("actChangeover"), open ? tr("Go to the guide") : tr("Start a changeover"), true,
        [this] { Q_EMIT m_bench.openChangeover(m_printer); });
    add(QStringLiteral("actPrintEnded"), tr("Print ended…"), p->activity == Activity::Printing,
        [this] { askPrintEnded(m_bench, m_printer, this); });
    add(QStringLiteral("actPartRemoved"), tr("Part removed"), p->activity == Activity::PartLying,
        [this] { m_bench.perform(act::PartRemoved{m_printer}); });
    menu->addSeparator();
    if (down)
        add(QStringLiteral("actUp"), tr("Up again"), true,
            [this] { m_bench.perform(act::DowntimeEnded{m_printer}); });
    else
        add(QStringLiteral("actDown"), tr("Declare downtime…"), true, [this] { askDowntime(m_bench, m_printer, this); });
    add(QStringLiteral("actDeclare"), tr("Declare what it wears…"), !open,
        [this] { askDeclare(m_bench, m_printer, this); });
}

} // namespace interlude
