#include "views/changeover/scan_slot.h"

#include "views/bench/keys.h"

#include <QHBoxLayout>
#include <QVBoxLayout>

namespace interlude {

ScanSlot::ScanSlot(const QString& name, const QString& caption, const QString& expected, QWidget* parent)
    : QWidget(parent), m_caption(caption) {
    setObjectName(name);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(look::unit / 2);
    column->addWidget(look::label(look::Text::Body, caption, true));
    m_box = new look::Panel;
    m_box->layout()->setContentsMargins(look::unit + 4, look::unit, look::unit + 4, look::unit);
    auto* row = new QHBoxLayout;
    m_expected = look::label(look::Text::Body, expected);
    m_state = look::mutedLabel(look::Text::Body);
    m_state->setWordWrap(false);
    row->addWidget(m_expected, 1);
    row->addWidget(m_state);
    m_box->body()->addLayout(row);
    column->addWidget(m_box);
}

void ScanSlot::setState(const std::optional<act::ScanDone>& done, bool inHand) {
    m_state->setText(!done ? (inHand ? tr("scan it now") : tr("to scan")) : done->typed ? tr("✓ typed") : tr("✓ scanned"));
    m_box->setMark(inHand ? look::Panel::Mark::InHand : look::Panel::Mark::None);
    m_box->setAccessibleName(QStringLiteral("%1: %2, %3").arg(m_caption, m_expected->text(), m_state->text()));
}

AnswerSlot::AnswerSlot(const QString& name, const AnswerWanted& wanted, QWidget* parent)
    : QWidget(parent), m_wanted(wanted) {
    setObjectName(name);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(look::unit / 2);
    column->addWidget(look::label(look::Text::Body, wanted.question, true));
    auto* row = new QHBoxLayout;
    row->setSpacing(look::unit);
    m_yes = look::button({});
    m_no = look::button({});
    const auto sayKeys = [this] {
        m_yes->setText(tr("Yes%1").arg(keyHint(QStringLiteral("guide.yes"))));
        m_no->setText(tr("No%1").arg(keyHint(QStringLiteral("guide.no"))));
    };
    sayKeys();
    connect(&keys(), &Keys::changed, this, sayKeys);
    for (QPushButton* b : {m_yes, m_no}) {
        b->setCheckable(true);
        b->setFocusPolicy(Qt::TabFocus);
        row->addWidget(b);
    }
    m_yes->setObjectName(name + QStringLiteral("Yes"));
    m_no->setObjectName(name + QStringLiteral("No"));
    m_yes->setAccessibleName(tr("%1 Yes").arg(wanted.question));
    m_no->setAccessibleName(tr("%1 No").arg(wanted.question));
    m_state = look::mutedLabel(look::Text::Body);
    row->addWidget(m_state, 1);
    column->addLayout(row);
    connect(m_yes, &QPushButton::clicked, this, [this] { Q_EMIT answered(true); });
    connect(m_no, &QPushButton::clicked, this, [this] { Q_EMIT answered(false); });
}

void AnswerSlot::setState(const std::optional<bool>& answer, bool inHand) {
    m_yes->setChecked(answer && *answer);
    m_no->setChecked(answer && !*answer);
    const bool wrong = answer && m_wanted.mustBe && *m_wanted.mustBe != *answer;
    look::setTone(m_state, wrong ? QStringLiteral("alarm") : QStringLiteral("muted"));
    m_state->setText(wrong    ? tr("▲ goes on only with %1").arg(*m_wanted.mustBe ? tr("Yes") : tr("No"))
                     : answer ? tr("✓ answered")
                     : inHand ? tr("answer it now")
                              : QString());
}

} // namespace interlude
