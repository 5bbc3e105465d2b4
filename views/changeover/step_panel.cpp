#include "views/changeover/step_panel.h"

#include "views/asking/ask_dialog.h"
#include "views/asking/time_field.h"
#include "views/changeover/countdown_panel.h"
#include "views/words/words.h"

#include <QGridLayout>
#include <QScrollBar>
#include <QTimer>
#include <QVBoxLayout>

namespace interlude {

namespace {
/// From here on two slots stand side by side.
constexpr int roomForTwo = 72 * look::unit;
} // namespace

QString expectedText(const Shop& shop, const QString& id) {
    const Catalogue& c = shop.catalogue();
    if (const auto n = shop.stock().nozzles.constFind(id); n != shop.stock().nozzles.cend())
        return QStringLiteral("%1 · %2").arg(id, words::nozzleType(c, n->type));
    if (const auto s = shop.stock().spools.constFind(id); s != shop.stock().spools.cend())
        return QStringLiteral("%1 · %2").arg(id, words::material(c, s->material));
    if (const Printer* p = c.printer(id)) return QStringLiteral("%1 · %2").arg(id, p->name);
    if (const Place* p = c.place(id)) return QStringLiteral("%1 · %2").arg(id, p->name);
    return id.isEmpty() ? StepPanel::tr("any") : id;
}

StepPanel::StepPanel(GuideDesk& desk, QWidget* parent) : QScrollArea(parent), m_desk(desk) {
    setObjectName(QStringLiteral("stepPanel"));
    setWidgetResizable(true);
    setFocusPolicy(Qt::NoFocus);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* inside = new QWidget;
    m_column = new QVBoxLayout(inside);
    m_column->setContentsMargins(0, 0, look::unit, 0);
    m_column->setSpacing(look::unit + 4);
    setWidget(inside);
}

void StepPanel::refresh() {
    const PlannedStep* planned = m_desk.shown();
    const QString key = planned ? QStringLiteral("%1/%2/%3")
                                       .arg(m_desk.number())
                                       .arg(planned->step.id, m_desk.entry()->useWantedOf())
                                 : QStringLiteral("nothing");
    if (key != m_key) {
        m_key = key;
        look::clear(m_column);
        m_scans.clear();
        m_answers.clear();
        m_readings.clear();
        m_measure = m_use = nullptr;
        m_digits = m_basis = m_meanwhile = nullptr;
        m_late = nullptr;
        m_desk.setLateTrouble({});
        if (planned) rebuild(*planned);
        else addNothingToDo();
        m_next = nullptr;
        verticalScrollBar()->setValue(0);
        m_fresh = true;
    }
    if (planned) refreshSlots(*m_desk.entry());
    else refreshNothingToDo();
    showNext();
}

void StepPanel::showNext() {
    const QList<Missing> missing = m_desk.missing();
    QWidget* next = missing.isEmpty() ? nullptr : slotOf(missing.first());
    if (next == m_next) return;
    m_next = next;
    // Once it has its place, after the layouts' own events: right after a rebuild nothing has been laid out yet. What was
    // built just now gets its fonts when it is shown, so the column is laid out once more.
    if (next) QTimer::singleShot(0, this, [this] {
        m_column->invalidate();
        QEvent again(QEvent::LayoutRequest);
        QCoreApplication::sendEvent(this, &again);
        // A step is read from its title and cautions down, but nobody gives an answer to a question that is out of sight.
        if (std::exchange(m_fresh, false)) verticalScrollBar()->setValue(0);
        if (m_next) ensureWidgetVisible(m_next, 0, look::unit);
    });
}

bool StepPanel::viewportEvent(QEvent* event) {
    // There is no scrolling sideways, so what cannot break must fit.
    if (event->type() == QEvent::LayoutRequest)
        setMinimumWidth(widget()->minimumSizeHint().width() + verticalScrollBar()->sizeHint().width());
    return QScrollArea::viewportEvent(event);
}

void StepPanel::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    if (m_next) ensureWidgetVisible(m_next, 0, look::unit);
}

QWidget* StepPanel::slotOf(const Missing& m) const {
    switch (m.what) {
    case Missing::What::Measure: return m_measure;
    case Missing::What::Scan: return m_scans.value(m.index);
    case Missing::What::Use: return m_use;
    case Missing::What::Answer: return m_answers.value(m.index);
    case Missing::What::Reading: return m_readings.value(m.index).value(m.time);
    }
    return nullptr;
}

void StepPanel::addNothingToDo() {
    auto* title = look::label(look::Text::StepTitle, tr("Nothing to do here now"));
    title->setObjectName(QStringLiteral("stepTitle"));
    m_column->addWidget(title);
    m_basis = look::label(look::Text::Detail);
    m_meanwhile = look::label(look::Text::Detail);
    m_column->addWidget(m_basis);
    m_column->addWidget(m_meanwhile);
    m_column->addStretch(1);
}

void StepPanel::refreshNothingToDo() {
    if (!m_basis) return;
    m_basis->setText(m_desk.guide().blockedBecause);
    refreshMeanwhile();
}

void StepPanel::refreshMeanwhile() {
    QStringList lines;
    for (const Meanwhile& m : m_desk.guide().meanwhile) lines << m.text;
    m_meanwhile->setText(lines.isEmpty() ? QString() : tr("Meanwhile: %1").arg(lines.join(QStringLiteral("\n"))));
}

void StepPanel::rebuild(const PlannedStep& planned) {
    addWords(planned);
    m_grid = new QGridLayout;
    m_grid->setHorizontalSpacing(2 * look::unit);
    m_grid->setVerticalSpacing(look::unit);
    m_grid->setColumnStretch(0, 1);
    m_columns = viewport()->width() < roomForTwo ? 1 : 2;
    if (m_columns > 1) m_grid->setColumnStretch(1, 1);
    m_cell = 0;
    addSlots(planned);
    m_column->addLayout(m_grid);
    if (planned.step.external) addPickList();
    if (m_desk.session()->enteredLate) addLateTime();
    m_column->addStretch(1);
}

/// What is printed next, as the order names it.
QString StepPanel::orderText() const {
    const Job* job = m_desk.bench().shop().job(m_desk.session()->changeover.transition.request.job);
    if (!job) return {};
    QStringList out{tr("Job %1").arg(job->id)};
    if (!job->title.isEmpty()) out << job->title;
    if (!job->order.isEmpty()) out << tr("order %1").arg(job->order);
    if (!job->buildFile.isEmpty()) out << tr("build file %1").arg(job->buildFile);
    return out.join(QStringLiteral(" · "));
}

/// What is fetched and prepared while the printer still prints is compared with this list.
void StepPanel::addPickList() {
    const QList<PickItem>& items = m_desk.session()->changeover.pickList;
    if (items.isEmpty()) return;
    m_column->addWidget(look::label(look::Text::Body, tr("Pick list"), true));
    QStringList lines;
    for (const PickItem& item : items) lines << words::pickLine(m_desk.bench().catalogue(), item);
    auto* list = look::label(look::Text::Body, lines.join(QLatin1Char('\n')));
    list->setObjectName(QStringLiteral("pickList"));
    m_column->addWidget(list);
}

void StepPanel::addWords(const PlannedStep& planned) {
    const StepTemplate& s = planned.step;
    auto* title = look::label(look::Text::StepTitle, s.title);
    title->setObjectName(QStringLiteral("stepTitle"));
    m_column->addWidget(title);
    if (!s.handsOn()) {
        m_digits = look::label(look::Text::Countdown);
        m_digits->setObjectName(QStringLiteral("bigCountdown"));
        m_digits->setWordWrap(false);
        m_basis = look::mutedLabel(look::Text::Detail);
        m_column->addWidget(m_digits);
        m_column->addWidget(m_basis);
    }
    auto* detail = look::label(look::Text::Detail, s.detail);
    look::setTone(detail, QStringLiteral("soft"));
    m_column->addWidget(detail);
    QStringList facts;
    if (s.effect == Effect::StartPrint)
        if (const QString order = orderText(); !order.isEmpty()) facts << order;
    if (planned.target) facts << tr("To reach: %1").arg(words::celsius(*planned.target));
    if (planned.purge) facts << tr("Volume: %1").arg(words::cm3(*planned.purge));
    if (!planned.mandatoryBecause.isEmpty()) facts << planned.mandatoryBecause;
    for (const QString& f : facts) m_column->addWidget(look::label(look::Text::Detail, f, true));
    for (const Caution& c : s.cautions) m_column->addWidget(look::cautionBox(c));
    QStringList guards;
    for (const QString& p : s.protection) guards << words::plain(p);
    QStringList line;
    if (!guards.isEmpty()) line << tr("Protection: %1").arg(guards.join(QStringLiteral(", ")));
    if (const QString p = words::power(s.power); !p.isEmpty()) line << p;
    if (s.people > 1) line << tr("%1 people").arg(s.people);
    QStringList tools;
    for (const QString& id : s.tools) {
        const Tool* t = m_desk.bench().catalogue().tool(id);
        tools << (t ? t->name : id);
    }
    if (!tools.isEmpty()) line << tr("Tools: %1").arg(tools.join(QStringLiteral(", ")));
    if (!line.isEmpty()) m_column->addWidget(look::label(look::Text::Body, line.join(QStringLiteral(" · ")), true));
    if (!s.handsOn()) {
        m_meanwhile = look::label(look::Text::Detail);
        m_meanwhile->setObjectName(QStringLiteral("meanwhileHere"));
        m_column->addWidget(m_meanwhile);
    }
}

ReadingField* StepPanel::field(const QString& name, const QString& caption, const QString& unit,
                               const QString& limits) {
    auto* f = new ReadingField(name, caption, unit, limits);
    connect(f, &ReadingField::left, this, &StepPanel::left);
    return f;
}

void StepPanel::place(QWidget* slot, bool whole) {
    if (whole && m_cell % m_columns != 0) ++m_cell;
    m_grid->addWidget(slot, m_cell / m_columns, m_cell % m_columns, 1, whole ? m_columns : 1, Qt::AlignTop);
    m_cell += whole ? m_columns : 1;
}

void StepPanel::addSlots(const PlannedStep& planned) {
    const StepTemplate& s = planned.step;
    const Shop& shop = m_desk.bench().shop();
    if (s.onlyBelow) addMeasure(s);
    for (int i = 0; i < static_cast<int>(s.confirm.scans.size()); ++i) {
        auto* slot = new ScanSlot(QStringLiteral("scan%1").arg(i), words::scanCaption(s.confirm.scans.at(i).target),
                                  expectedText(shop, m_desk.entry()->expectedScan(i)));
        m_scans.append(slot);
        place(slot);
    }
    if (const NozzleSerial serial = m_desk.entry()->useWantedOf(); !serial.isEmpty()) {
        m_use = field(QStringLiteral("useSoFar"), tr("Use so far of %1").arg(serial), tr("cm³"), {});
        QPushButton* none = m_use->addAlternative(QStringLiteral("noHistory"), tr("No history"));
        connect(none, &QPushButton::clicked, this, [this] { m_desk.state(QStringLiteral("no history")); });
        connect(m_use, &ReadingField::given, this, [this](const QString& t) { m_desk.state(t); });
        place(m_use, true);
    }
    for (int i = 0; i < static_cast<int>(s.confirm.answers.size()); ++i) {
        auto* slot = new AnswerSlot(QStringLiteral("answer%1").arg(i), s.confirm.answers.at(i));
        connect(slot, &AnswerSlot::answered, this, [this, i](bool yes) {
            m_desk.answerAt(i, yes);
            Q_EMIT left();
        });
        m_answers.append(slot);
        place(slot, true);
    }
    for (int i = 0; i < static_cast<int>(s.confirm.readings.size()); ++i) {
        const ReadingWanted& w = s.confirm.readings.at(i);
        const Instrument* by = m_desk.bench().catalogue().instrument(w.instrument);
        m_readings.append(QList<ReadingField*>());
        for (int t = 0; t < std::max(1, w.times); ++t) {
            QString caption = by ? QStringLiteral("%1 · %2").arg(w.name, by->name) : w.name;
            if (w.times > 1) caption += QStringLiteral(" · %1/%2").arg(t + 1).arg(w.times);
            auto* f = field(QStringLiteral("reading%1_%2").arg(i).arg(t), caption, w.unit, words::limits(w));
            connect(f, &ReadingField::given, this, [this, i, t](const QString& text) { m_desk.read(i, t, text); });
            m_readings.last().append(f);
            place(f);
        }
    }
}

void StepPanel::addMeasure(const StepTemplate& step) {
    m_measure = field(QStringLiteral("measured"), tr("%1, measured").arg(words::sensor(step.measuredAt)),
                      QStringLiteral("°C"), tr("at or below %1").arg(words::celsius(*step.onlyBelow)));
    connect(m_measure, &ReadingField::given, this, [this](const QString& t) { m_desk.measure(t); });
    place(m_measure, true);
}

void StepPanel::addLateTime() {
    const QTimeZone zone = m_desk.bench().catalogue().fleet.zone;
    auto* row = new QHBoxLayout;
    auto* caption = look::label(look::Text::Body, tr("Entered late: done at"), true);
    caption->setWordWrap(false);
    m_late = new TimeField;
    m_late->setObjectName(QStringLiteral("lateTime"));
    m_late->setAccessibleName(tr("When this step was done"));
    setZoned(*m_late, m_desk.happenedAt().value_or(m_desk.bench().now()), zone);
    connect(m_late, &TimeField::dateTimeChanged, this,
            [this, zone] { m_desk.setLateTime(zoned(*m_late, zone)); });
    connect(m_late, &TimeField::textTyped, this, [this] { if (m_late) m_desk.setLateTrouble(m_late->objection()); });
    row->addWidget(caption);
    row->addWidget(m_late);
    row->addStretch();
    m_column->addLayout(row);
}

void StepPanel::refreshSlots(const StepEntry& entry) {
    const QList<Missing> missing = m_desk.missing();
    const auto next = [&](Missing::What what, int index, int time = 0) {
        return !missing.isEmpty() && missing.first().what == what && missing.first().index == index &&
               missing.first().time == time;
    };
    for (int i = 0; i < static_cast<int>(m_scans.size()); ++i)
        m_scans.at(i)->setState(entry.scanAt(i), next(Missing::What::Scan, i));
    for (int i = 0; i < static_cast<int>(m_answers.size()); ++i)
        m_answers.at(i)->setState(entry.answerAt(i), next(Missing::What::Answer, i));
    for (int i = 0; i < static_cast<int>(m_readings.size()); ++i)
        for (int t = 0; t < static_cast<int>(m_readings.at(i).size()); ++t) {
            ReadingField* f = m_readings.at(i).at(t);
            const auto& done = entry.readingAt(i, t);
            const bool out = entry.outside(i, t);
            f->setState(!done ? QString() : out ? tr("outside its limits") : tr("✓ read"), out,
                        next(Missing::What::Reading, i, t));
            if (done) f->setValue(words::number(static_cast<double>(done->thousandths) / 1000.0));
        }
    if (m_use) {
        m_use->setState(entry.use() ? tr("✓ %1").arg(words::runVolume(*entry.use())) : QString(), false,
                        next(Missing::What::Use, 0));
    }
    if (m_measure) refreshMeasure(entry, missing);
    if (!m_digits) return;
    const Instant now = m_desk.bench().now();
    const Countdown* running = nullptr;
    for (const Countdown& c : m_desk.guide().waits)
        if (c.step == entry.step().id) running = &c;
    const QString digits = running ? countdownDigits(*running, now) : tr("not started");
    m_digits->setFont(look::font(running && running->due ? look::Text::Countdown : look::Text::StepTitle));
    m_digits->setText(digits);
    m_digits->setAccessibleName(running && running->due ? words::countdownSpoken(*running->left(now)) : digits);
    m_basis->setText(running ? countdownBasis(*running, now) : QString());
    refreshMeanwhile();
}

void StepPanel::refreshMeasure(const StepEntry& entry, const QList<Missing>& missing) {
    const MeasuredNow measured = m_desk.measured();
    const bool wanted = !missing.isEmpty() && missing.first().what == Missing::What::Measure;
    if (!measured.at || !measured.value) return m_measure->setState({}, false, wanted);
    const QString value = words::celsius(*measured.value);
    const QString age = words::stretch(m_desk.bench().now() - *measured.at);
    const bool hot = *measured.value > *entry.step().onlyBelow;
    if (!measured.fresh)
        m_measure->setState(tr("last %1, %2 old: measure again").arg(value, age), false, wanted);
    else
        m_measure->setState((hot ? tr("%1, %2 ago: still too hot") : tr("✓ %1, %2 ago")).arg(value, age), hot, wanted);
}

} // namespace interlude
