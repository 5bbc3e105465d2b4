#include "views/plan/leave_dialog.h"

#include "views/look/widgets.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QVBoxLayout>

namespace interlude {

LeaveDialog::LeaveDialog(const QString& whyNotPublished, QWidget* parent)
    : QDialog(parent), m_publish(look::primaryButton(tr("&Publish…"))), m_discard(look::button(tr("&Discard and close"))),
      m_stay(look::button(tr("Cancel"))) {
    const QString title = tr("The draft of the plan is not published");
    setObjectName(QStringLiteral("leaveDialog"));
    setWindowTitle(title);
    setAccessibleName(title);
    setAttribute(Qt::WA_DeleteOnClose);
    setMinimumWidth(60 * look::unit);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(3 * look::unit, 2 * look::unit, 3 * look::unit, 2 * look::unit);
    column->setSpacing(look::unit + look::unit / 2);
    column->addWidget(look::label(look::Text::PanelTitle, title, true));
    QString text = tr("A draft lives as long as the window. Closed now, what was planned and not published is lost; everything else is in the ledger.");
    if (!whyNotPublished.isEmpty()) text += QLatin1Char('\n') + tr("It cannot be published now. %1").arg(whyNotPublished);
    column->addWidget(look::mutedLabel(look::Text::Body, text));
    auto* row = new QHBoxLayout;
    row->addStretch();
    for (QPushButton* b : {m_stay, m_discard, m_publish}) row->addWidget(b);
    column->addLayout(row);
    m_publish->setEnabled(whyNotPublished.isEmpty());
    connect(m_stay, &QPushButton::clicked, this, &QDialog::reject);
    connect(m_discard, &QPushButton::clicked, this, [this] {
        accept();
        Q_EMIT discardWanted();
    });
    connect(m_publish, &QPushButton::clicked, this, [this] {
        accept();
        Q_EMIT publishWanted();
    });
    (m_publish->isEnabled() ? m_publish : m_stay)->setFocus();
}

} // namespace interlude
