#include "views/records/trace_dialog.h"

#include "model/records/wording.h"
#include "views/lists/list_view.h"
#include "views/look/widgets.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace interlude {

TraceDialog::TraceDialog(Bench& bench, QWidget* parent)
    : QDialog(parent), m_bench(bench), m_by(new QComboBox), m_id(new QLineEdit),
      m_about(look::label(look::Text::Body, tr("Scan or type a lot, a nozzle's serial, a part number or a job."), true)), m_model(nullptr),
      m_list(nullptr) {
    setObjectName(QStringLiteral("traceDialog"));
    setAttribute(Qt::WA_DeleteOnClose);
    setWindowTitle(tr("Trace"));
    setAccessibleName(windowTitle());
    resize(140 * look::unit, 70 * look::unit);
    build();
    m_id->setFocus();
}

void TraceDialog::build() {
    m_model = new lists::ListModel<TracedPrint>(columns(), [](const TracedPrint& p) { return QString::number(p.run.event); });
    m_list = new lists::ListView(QStringLiteral("trace"), tr("Prints"), m_model);
    m_list->setEmptyText(tr("No print yet."));
    m_by->setObjectName(QStringLiteral("traceBy"));
    m_by->setAccessibleName(tr("What to trace"));
    m_by->addItem(tr("Lot"), static_cast<int>(TraceBy::Lot));
    m_by->addItem(tr("Nozzle"), static_cast<int>(TraceBy::Nozzle));
    m_by->addItem(tr("Part number"), static_cast<int>(TraceBy::Part));
    m_by->addItem(tr("Job"), static_cast<int>(TraceBy::Job));
    m_id->setObjectName(QStringLiteral("traceId"));
    m_id->setAccessibleName(tr("Lot, serial, part number or job"));
    m_about->setObjectName(QStringLiteral("traceAbout"));
    m_about->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    auto* go = look::primaryButton(tr("&Trace"));
    go->setObjectName(QStringLiteral("traceGo"));
    go->setDefault(true);
    auto* close = look::button(tr("Close"));
    close->setAutoDefault(false);
    auto* row = new QHBoxLayout;
    row->setSpacing(look::unit);
    row->addWidget(m_by);
    row->addWidget(m_id, 1);
    row->addWidget(go);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(3 * look::unit, 2 * look::unit, 3 * look::unit, 2 * look::unit);
    all->setSpacing(look::unit);
    all->addWidget(look::label(look::Text::PanelTitle, windowTitle(), true));
    all->addLayout(row);
    all->addWidget(m_about);
    all->addWidget(m_list, 1);
    all->addWidget(close, 0, Qt::AlignRight);
    connect(go, &QPushButton::clicked, this, &TraceDialog::lookUp);
    connect(close, &QPushButton::clicked, this, &QDialog::reject);
    connect(m_list, &lists::ListView::activated, this, [this](const QString& key) {
        for (const TracedPrint& p : m_model->rows())
            if (QString::number(p.run.event) == key && p.run.session > 0) Q_EMIT m_bench.openRecord(p.run.session);
    });
}

QList<lists::Column<TracedPrint>> TraceDialog::columns() const {
    using Row = const TracedPrint&;
    const auto zone = [this] { return m_bench.catalogue().fleet.zone; };
    return {{tr("Started"),
             [zone](Row p) {
                 lists::Cell c = lists::textCell(wording::localTime(p.run.started, zone()));
                 c.sort = toMs(p.run.started);
                 return c;
             },
             false, 16},
            {tr("Printer"), [this](Row p) { return lists::textCell(m_bench.catalogue().printerName(p.run.printer)); }, false, 7},
            {tr("Job"), [](Row p) { return lists::textCell(p.run.job); }, false, 7},
            {tr("Part number"), [](Row p) { return lists::textCell(p.job.partNumber); }, false, 10},
            {tr("Part"), [](Row p) { return lists::textCell(p.job.title); }, false, 14},
            {tr("Lots (spools)"), [](Row p) { return lists::textCell(p.lots()); }, false, 20},
            {tr("Nozzles"), [](Row p) { return lists::textCell(p.run.nozzles.join(QStringLiteral(", "))); }, false, 12},
            {tr("Outcome"), [](Row p) { return lists::textCell(outcomeWord(p.run)); }, false, 8},
            {tr("Session"),
             [](Row p) {
                 lists::Cell c = lists::textCell(p.run.session > 0 ? QString::number(p.run.session) : tr("none"));
                 c.sort = p.run.session;
                 return c;
             },
             true, 6}};
}

void TraceDialog::lookUp() {
    look(static_cast<TraceBy>(m_by->currentData().toInt()), m_id->text());
    m_id->selectAll();
}

bool TraceDialog::look(TraceBy by, const QString& id) {
    m_by->setCurrentIndex(m_by->findData(static_cast<int>(by)));
    if (m_id->text() != id) m_id->setText(id);
    const auto found = trace(m_bench.shop(), by, id);
    if (!found) {
        m_about->setText(sentence(found.error()));
        m_model->setRows({});
        return false;
    }
    QStringList about = found->about.mid(0, 6); // a part may have a hundred jobs; the rows below tell each that was printed
    if (found->about.size() > about.size()) about.append(tr("and %1 more").arg(found->about.size() - about.size()));
    for (const SessionSummary& s : found->sessions) about.append(tr("session %1 on %2: a changeover without a print").arg(s.number).arg(m_bench.catalogue().printerName(s.printer)));
    m_about->setText(about.join(QLatin1Char('\n')));
    m_model->setRows(found->prints);
    return true;
}

} // namespace interlude
