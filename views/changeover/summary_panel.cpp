#include "views/changeover/summary_panel.h"

#include "model/records/wording.h"
#include "views/words/words.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QScrollBar>
#include <QVBoxLayout>

namespace interlude {

namespace {

/// A tick whose text goes on in further lines where it does not fit into one.
class WrappedTick final : public QCheckBox {
public:
    explicit WrappedTick(const QString& text) : QCheckBox(look::shown(text)), m_whole(look::shown(text)) {
        QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Fixed);
        policy.setHeightForWidth(true);
        setSizePolicy(policy);
    }
    QSize sizeHint() const override { return {beside() + widthOf(m_whole), heightForWidth(beside() + widthOf(m_whole))}; }
    QSize minimumSizeHint() const override { return {30 * look::unit, QCheckBox::minimumSizeHint().height()}; }
    int heightForWidth(int width) const override {
        const auto more = broken(width).count(QLatin1Char('\n'));
        return oneLine + static_cast<int>(more) * fontMetrics().height();
    }

protected:
    void resizeEvent(QResizeEvent* event) override {
        QCheckBox::resizeEvent(event);
        if (const QString text = broken(width()); text != this->text()) setText(text);
    }

private:
    static constexpr int oneLine = 4 * look::unit; ///< as the style sheet has it
    int widthOf(const QString& text) const { return fontMetrics().size(Qt::TextShowMnemonic, text).width(); }
    int beside() const { return QCheckBox::sizeHint().width() - widthOf(text()); }
    QString broken(int width) const {
        QStringList lines{QString()};
        for (const QString& word : m_whole.split(QLatin1Char(' '))) {
            const QString longer = lines.last().isEmpty() ? word : lines.last() + QLatin1Char(' ') + word;
            if (lines.last().isEmpty() || widthOf(longer) <= width - beside()) lines.last() = longer;
            else lines.append(word);
        }
        return lines.join(QLatin1Char('\n'));
    }
    QString m_whole;
};

} // namespace

QString purgeText(const Catalogue& c, const PurgePlan& p) {
    const QString where = p.role == Role::Part ? SummaryPanel::tr("part melt zone")
                                               : SummaryPanel::tr("support melt zone");
    if (!p.needed) return SummaryPanel::tr("%1: nothing to purge").arg(where);
    if (p.primeOnly) return SummaryPanel::tr("%1: only prime, %2").arg(where, words::cm3(p.volume));
    return SummaryPanel::tr("%1: %2 → %3, purge %4 (until at most %5 % of what leaves is old)")
        .arg(where, words::polymer(c, p.from), words::polymer(c, p.to), words::cm3(p.volume),
             words::number(p.residual * 100.0));
}

SummaryPanel::SummaryPanel(Bench& bench, QWidget* parent) : QScrollArea(parent), m_bench(bench) {
    setObjectName(QStringLiteral("summaryPanel"));
    setWidgetResizable(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::TabFocus);
    setAccessibleName(tr("Transition summary"));
    auto* inside = new QWidget;
    m_column = new QVBoxLayout(inside);
    m_column->setContentsMargins(0, 0, look::unit, 0);
    m_column->setSpacing(look::unit + 4);
    setWidget(inside);
}

void SummaryPanel::show(const Draft& draft, const std::optional<DraftResult>& result, const QString& hint) {
    if (draft.printer != m_draft.printer || draft.job != m_draft.job || draft.variant != m_draft.variant)
        m_ticked.clear();
    m_draft = draft;
    const int scrolled = verticalScrollBar()->value();
    const QWidget* focus = QApplication::focusWidget();
    const QString focused = focus && widget()->isAncestorOf(focus) ? focus->objectName() : QString();
    m_ready = nullptr;
    look::clear(m_column);
    if (!result) {
        m_column->addWidget(look::mutedLabel(look::Text::Detail, hint));
        m_column->addStretch();
        return;
    }
    addHead(*result);
    addVerdicts(*result);
    if (result->changeover) addFigures(*result);
    addChoices(*result);
    if (result->changeover) {
        addPickList(*result->changeover);
        addSteps(*result->changeover);
    }
    m_column->addStretch();
    verticalScrollBar()->setValue(scrolled);
    // Whoever went through it by keys goes on from the same place.
    if (QWidget* again = focused.isEmpty() ? nullptr : added(focused)) again->setFocus();
}

/// The one of this name that was added last: those before it are on their way out.
QWidget* SummaryPanel::added(const QString& name) const {
    const QList<QWidget*> all = widget()->findChildren<QWidget*>(name);
    return all.isEmpty() ? nullptr : all.last();
}

void SummaryPanel::sayReady(Instant ready) {
    if (m_ready) m_ready->setText(m_bench.shortTime(ready));
}

bool SummaryPanel::viewportEvent(QEvent* event) {
    // There is no scrolling sideways, so what cannot break must fit.
    if (event->type() == QEvent::LayoutRequest)
        setMinimumWidth(widget()->minimumSizeHint().width() + verticalScrollBar()->sizeHint().width());
    return QScrollArea::viewportEvent(event);
}

void SummaryPanel::addHead(const DraftResult& r) {
    const Catalogue& c = m_bench.catalogue();
    const Transition& t = r.transition;
    const QString name = c.printerName(t.request.now.id);
    const Job* job = m_bench.shop().job(t.request.job);
    QString title = name;
    if (job) title = QStringLiteral("%1 → %2").arg(name, QStringLiteral("%1 %2, %3").arg(job->id, job->title, t.request.variant).simplified());
    auto* head = look::label(look::Text::PanelTitle, title);
    head->setObjectName(QStringLiteral("summaryTitle"));
    m_column->addWidget(head);
    m_column->addWidget(look::label(look::Text::Detail,
                                    QStringLiteral("%1 → %2").arg(words::setupNow(c, m_bench.shop().stock(), t.request.now),
                                                                  words::setupWanted(c, t.request.wanted)),
                                    true));
    QStringList facts;
    for (const QString& f : t.facts) facts << words::fact(f);
    m_column->addWidget(look::label(look::Text::Body, facts.isEmpty() ? tr("The setup stays the same.")
                                                                      : tr("What changes: %1")
                                                                            .arg(facts.join(QStringLiteral(", ")))));
}

void SummaryPanel::addVerdicts(const DraftResult& r) {
    const QStringList lifted = m_draft.liftedRules();
    Findings all = r.transition.verdicts;
    // A refusal of the planning itself (no such steps, say) is not among the verdicts.
    if (!r.changeover && r.standing.isEmpty()) all.prepend(r.changeover.error());
    for (const Finding& f : all) {
        auto* row = new QHBoxLayout;
        row->addWidget(look::findingRow(f), 1);
        if (f.severity == Severity::Refusal && lifted.contains(f.rule)) {
            auto* done = look::mutedLabel(look::Text::Body, tr("✓ overridden"));
            done->setWordWrap(false);
            row->addWidget(done, 0, Qt::AlignTop);
        } else if (f.severity == Severity::Refusal && f.overridable) {
            auto* lift = look::button(tr("Override…"));
            lift->setObjectName(QStringLiteral("lift-") + f.rule);
            lift->setAccessibleName(tr("Override: %1").arg(f.reason));
            connect(lift, &QPushButton::clicked, this, [this, f] { Q_EMIT liftAsked(f); });
            row->addWidget(lift, 0, Qt::AlignTop);
        }
        m_column->addLayout(row);
    }
}

void SummaryPanel::addFigures(const DraftResult& r) {
    const Changeover& c = *r.changeover;
    auto* row = new QHBoxLayout;
    row->setSpacing(3 * look::unit);
    const auto figure = [&](const QString& caption, const QString& value) {
        auto* column = new QVBoxLayout;
        column->setSpacing(0);
        auto* v = look::label(look::Text::PanelTitle, value);
        v->setWordWrap(false);
        column->addWidget(v);
        column->addWidget(look::mutedLabel(look::Text::Body, caption));
        row->addLayout(column);
        return v;
    };
    figure(tr("preparation"), words::minutes(c.preparation));
    figure(tr("hands-on"), words::minutes(c.handsOn));
    figure(tr("waiting"), words::minutes(c.waiting));
    if (r.ready) m_ready = figure(tr("printer ready, if begun now"), m_bench.shortTime(*r.ready));
    row->addStretch();
    m_column->addLayout(row);
    const bool all = std::all_of(c.steps.begin(), c.steps.end(), [](const PlannedStep& s) { return s.predictable; });
    if (!all)
        m_column->addWidget(look::mutedLabel(
            look::Text::Body, tr("Without waits that cannot be predicted: there the step says “measure”.")));
    if (const QString two = wording::twoPeople(c, m_bench.catalogue()); !two.isEmpty()) {
        auto* said = look::mutedLabel(look::Text::Body, two);
        said->setObjectName(QStringLiteral("two-people"));
        m_column->addWidget(said);
    }
}

void SummaryPanel::addRow(QGridLayout* grid, const QString& caption, const QString& text) {
    const int row = grid->rowCount();
    auto* c = look::mutedLabel(look::Text::Body, caption);
    c->setMinimumWidth(14 * look::unit);
    grid->addWidget(c, row, 0, Qt::AlignTop);
    grid->addWidget(look::label(look::Text::Body, text), row, 1);
}

void SummaryPanel::addChoice(QGridLayout* grid, const QString& name, const QString& caption, const QString& note,
                             const QList<Candidate>& candidates, QString Draft::* field) {
    if (candidates.isEmpty()) return addRow(grid, caption, note.isEmpty() ? tr("none") : note);
    const int row = grid->rowCount();
    grid->addWidget(look::mutedLabel(look::Text::Body, caption), row, 0, Qt::AlignTop);
    auto* box = new QComboBox;
    box->setObjectName(name);
    box->setAccessibleName(caption);
    box->setMinimumContentsLength(12);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    for (const Candidate& c : candidates) box->addItem(c.text, c.id);
    const int at = box->findData(m_draft.*field);
    if (at >= 0) box->setCurrentIndex(at);
    connect(box, &QComboBox::activated, this, [this, box, field] {
        Draft d = m_draft;
        d.*field = box->currentData().toString();
        // Queued: the answer rebuilds this panel, the box with it.
        QMetaObject::invokeMethod(this, [this, d] { Q_EMIT changed(d); }, Qt::QueuedConnection);
    });
    auto* column = new QVBoxLayout;
    column->setSpacing(2);
    column->addWidget(box);
    if (!note.isEmpty()) column->addWidget(look::mutedLabel(look::Text::Small, note));
    grid->addLayout(column, row, 1);
}

void SummaryPanel::addChoices(const DraftResult& r) {
    const Transition& t = r.transition;
    auto* grid = new QGridLayout;
    grid->setColumnStretch(1, 1);
    grid->setHorizontalSpacing(2 * look::unit);
    const auto nozzleNote = [&](Role role) {
        for (const NozzleChange& n : t.nozzles)
            if (n.role == role && n.exchange) return tr("out: %1").arg(n.out.isEmpty() ? tr("none") : n.out);
        return tr("stays");
    };
    const auto spoolNote = [&](Role role) {
        for (const SpoolChange& s : t.spools)
            if (s.role == role && s.load && s.unload) return tr("out: %1").arg(s.out);
        return QString();
    };
    const Instant now = m_bench.now();
    const Setup& wanted = t.request.wanted;
    addChoice(grid, QStringLiteral("choosePartNozzle"), tr("Part nozzle"), nozzleNote(Role::Part),
              nozzleCandidates(m_bench.shop(), t, Role::Part), &Draft::partNozzle);
    if (!wanted.supportNozzle.isEmpty())
        addChoice(grid, QStringLiteral("chooseSupportNozzle"), tr("Support nozzle"), nozzleNote(Role::Support),
                  nozzleCandidates(m_bench.shop(), t, Role::Support), &Draft::supportNozzle);
    addChoice(grid, QStringLiteral("choosePartSpool"), tr("Part spool"), spoolNote(Role::Part),
              spoolCandidates(m_bench.shop(), t, Role::Part, now), &Draft::partSpool);
    if (!wanted.support.isEmpty())
        addChoice(grid, QStringLiteral("chooseSupportSpool"), tr("Support spool"), spoolNote(Role::Support),
                  spoolCandidates(m_bench.shop(), t, Role::Support, now), &Draft::supportSpool);
    for (const PurgePlan& p : t.purges) addRow(grid, tr("Purge"), purgeText(m_bench.catalogue(), p));
    addRow(grid, tr("Chamber"),
           QStringLiteral("%1 → %2").arg(words::celsius(t.chamberBefore), words::celsius(t.chamberAfter)));
    addCleanOut(grid, t);
    m_column->addLayout(grid);
}

void SummaryPanel::addCleanOut(QGridLayout* grid, const Transition& t) {
    addRow(grid, tr("Clean-out"), QStringLiteral("%1: %2").arg(words::cleanOut(t.chamber.level), t.chamber.reason));
    if (t.wiper.level != CleanOut::None)
        addRow(grid, tr("Wiper and bin"), QStringLiteral("%1: %2").arg(words::cleanOut(t.wiper.level), t.wiper.reason));
    if (t.chamber.level != CleanOut::Advised) return;
    auto* take = new QCheckBox(tr("Do the advised clean-out"));
    take->setObjectName(QStringLiteral("takeCleanOut"));
    take->setAccessibleName(take->text());
    take->setChecked(m_draft.takeAdvisedCleanOut);
    connect(take, &QCheckBox::clicked, this, [this](bool on) {
        Draft d = m_draft;
        d.takeAdvisedCleanOut = on;
        QMetaObject::invokeMethod(this, [this, d] { Q_EMIT changed(d); }, Qt::QueuedConnection);
    });
    grid->addWidget(take, grid->rowCount(), 1);
}

void SummaryPanel::addPickList(const Changeover& c) {
    if (c.pickList.isEmpty()) return;
    m_column->addWidget(look::label(look::Text::Detail, tr("Fetch before the printer stops"), true));
    for (const PickItem& item : c.pickList) {
        const QString text = words::pickLine(m_bench.catalogue(), item);
        auto* tick = new WrappedTick(text);
        const QString key = item.kind + QLatin1Char('/') + item.id;
        tick->setObjectName(QStringLiteral("pick-") + key);
        tick->setAccessibleName(text);
        tick->setChecked(m_ticked.contains(key));
        connect(tick, &QCheckBox::toggled, this, [this, key](bool on) {
            if (on) m_ticked.insert(key);
            else m_ticked.remove(key);
        });
        m_column->addWidget(tick);
    }
}

void SummaryPanel::addSteps(const Changeover& c) {
    m_column->addWidget(look::label(look::Text::Detail, tr("Steps"), true));
    auto* grid = new QGridLayout;
    grid->setColumnStretch(1, 1);
    grid->setVerticalSpacing(look::unit / 2);
    QString group;
    int number = 0, row = 0;
    for (const PlannedStep& s : c.steps) {
        if (s.step.group != group) {
            group = s.step.group;
            auto* heading = look::mutedLabel(look::Text::Body, group);
            grid->addWidget(heading, row++, 0, 1, 3);
        }
        grid->addWidget(look::mutedLabel(look::Text::Body, QString::number(++number)), row, 0, Qt::AlignTop);
        const QString wait = s.step.handsOn() ? QString() : tr(" (waiting)");
        grid->addWidget(look::label(look::Text::Body, s.step.title + wait), row, 1);
        auto* minutes = look::label(look::Text::Body, s.predictable ? words::minutes(s.planned) : tr("measure"));
        minutes->setWordWrap(false);
        grid->addWidget(minutes, row++, 2, Qt::AlignRight | Qt::AlignTop);
    }
    m_column->addLayout(grid);
}

} // namespace interlude
