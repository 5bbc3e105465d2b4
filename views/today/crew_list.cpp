#include "views/today/crew_list.h"

#include "views/today/plan_ahead.h"
#include "views/words/counted.h"
#include "views/words/words.h"

#include <QHBoxLayout>
#include <QScrollArea>
#include <QScrollBar>

namespace interlude {

namespace {
constexpr std::chrono::hours ahead{16};

QVBoxLayout* rowsIn(QWidget* inside) {
    auto* rows = new QVBoxLayout(inside);
    // The frame of the focus is drawn at the edge: beside the words, not over them.
    rows->setContentsMargins(look::unit / 2, look::unit / 2, look::unit / 2, look::unit / 2);
    rows->setSpacing(look::unit);
    return rows;
}

/// In place of what was shown, scrolled as far as that was.
void put(QScrollArea* area, QWidget* inside) {
    const int scrolled = area->verticalScrollBar()->value();
    area->setWidget(inside);
    area->verticalScrollBar()->setValue(scrolled);
}
} // namespace

CrewList::CrewList(Bench& bench, const PlanAhead* plan, QWidget* parent)
    : Panel({}, parent), m_bench(bench), m_plan(plan) {
    setObjectName(QStringLiteral("crewList"));
    m_title = look::label(look::Text::Body, {}, true);
    m_title->setObjectName(QStringLiteral("crewTitle"));
    body()->addWidget(m_title);
    m_calls = addArea(tr("Who is needed where"));
    body()->setStretchFactor(m_calls, 1);
    body()->addWidget(look::label(look::Text::Body, tr("Look at"), true));
    m_look = addArea(tr("Look at"));
    m_look->setObjectName(QStringLiteral("lookAt"));
    refresh();
}

QScrollArea* CrewList::addArea(const QString& name) {
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setAccessibleName(name);
    body()->addWidget(area);
    return area;
}

void CrewList::shareHeight() {
    if (!m_look->widget()) return;
    // What to look at is always in view below the calls, however long they are; it takes what it needs, two fifths at most.
    const int needed = m_look->widget()->layout()->totalHeightForWidth(m_look->viewport()->width());
    m_look->setFixedHeight(std::min(std::max(needed, 3 * look::unit), std::max(6 * look::unit, height() * 2 / 5)));
}

void CrewList::resizeEvent(QResizeEvent* event) {
    Panel::resizeEvent(event);
    shareHeight();
    // Once more when the areas have their own new widths: how often the lines break depends on them.
    QMetaObject::invokeMethod(this, &CrewList::shareHeight, Qt::QueuedConnection);
}

QLayout* CrewList::rowOf(const Need& n) const {
    auto* row = new QHBoxLayout;
    row->setSpacing(look::unit);
    auto* when = look::label(look::Text::Body, n.waitsNow ? tr("now") : m_bench.shortTime(n.at), true);
    when->setWordWrap(false);
    when->setFixedWidth(9 * look::unit);
    auto* text = new QVBoxLayout;
    text->setSpacing(0);
    QString what = QStringLiteral("%1 · %2").arg(m_bench.catalogue().printerName(n.printer), n.what);
    if (n.people > 1) what += tr(" · %1 people").arg(n.people);
    text->addWidget(look::label(look::Text::Body, what));
    if (!n.fetch.isEmpty()) text->addWidget(look::mutedLabel(look::Text::Body, tr("fetch: %1").arg(n.fetch)));
    auto* length = look::label(look::Text::Body, n.length.count() > 0 ? words::minutes(n.length) : QString());
    length->setWordWrap(false);
    row->addWidget(when, 0, Qt::AlignTop);
    row->addLayout(text, 1);
    row->addWidget(length, 0, Qt::AlignTop);
    return row;
}

void CrewList::refresh() {
    const Instant now = m_bench.now();
    const CrewNow crew = crewAt(m_bench.catalogue().fleet, now, m_bench.shop().absences());
    QString title = tr("Who is needed where");
    if (!crew.unlimited && crew.present)
        title = tr("Who is needed where · %1 until %2").arg(words::people(crew.people), m_bench.shortTime(*crew.until));
    else if (!crew.unlimited && crew.until)
        title = tr("Who is needed where · nobody on shift until %1").arg(m_bench.shortTime(*crew.until));
    m_title->setText(title);
    const QList<Need> all = allNeeds(m_bench, m_plan, now + ahead);
    const QList<Worry> look = (m_plan ? m_plan->worries() : QList<Worry>()) + worries(m_bench.shop(), now);
    QStringList key;
    for (const Need& n : all)
        key << m_bench.catalogue().printerName(n.printer) << n.what << n.fetch << QString::number(n.people) << (n.waitsNow ? QString() : m_bench.shortTime(n.at))
            << QString::number(n.length.count());
    for (const Worry& w : look) key << w.text << QString::number(w.wrong);
    const QString shown = key.join(QLatin1Char('|')) + (look::theme() == look::Theme::Dark ? QStringLiteral("d") : QString());
    if (shown == m_key && m_calls->widget()) return;
    m_key = shown;
    // Filled before it is shown: into a shown one each row would be laid out with all others as it comes.
    auto* calls = new QWidget;
    QVBoxLayout* rows = rowsIn(calls);
    for (const Need& n : all) rows->addLayout(rowOf(n));
    if (all.isEmpty())
        rows->addWidget(look::mutedLabel(look::Text::Body, tr("Nobody is needed in the next 16 hours, as far as is "
                                                               "known. Publish a plan, or start a changeover from a card.")));
    rows->addStretch();
    put(m_calls, calls);
    auto* lookAt = new QWidget;
    rows = rowsIn(lookAt);
    for (const Worry& w : look) {
        auto* line = look::label(look::Text::Body, (w.wrong ? QStringLiteral("▲ ") : QStringLiteral("● ")) + w.text);
        if (w.wrong) look::setTone(line, QStringLiteral("alarm"));
        rows->addWidget(line);
    }
    if (look.isEmpty()) rows->addWidget(look::mutedLabel(look::Text::Body, tr("Spools and nozzles: nothing.")));
    put(m_look, lookAt);
    shareHeight();
    QMetaObject::invokeMethod(this, &CrewList::shareHeight, Qt::QueuedConnection);
}

} // namespace interlude
