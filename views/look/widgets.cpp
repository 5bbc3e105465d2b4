#include "views/look/widgets.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLayout>
#include <QPainter>
#include <QStyle>
#include <QVBoxLayout>

namespace interlude::look {

namespace {

void restyle(QWidget* w, const char* property, const QVariant& value) {
    if (w->property(property) == value) return;
    w->setProperty(property, value);
    w->style()->unpolish(w);
    w->style()->polish(w);
    w->update();
}

QString tone(SignalWord word) {
    return signalText(word).toLower();
}

struct SeverityLook {
    const char* shape;
    QString word;
    const char* tone;
};

SeverityLook lookOf(Severity s) {
    switch (s) {
    case Severity::Refusal: return {"■", QObject::tr("Not allowed"), "alarm"};
    case Severity::Mandatory: return {"◆", QObject::tr("Must be done"), "warning"};
    case Severity::Warning: return {"▲", QObject::tr("Warning"), "warning"};
    case Severity::Advice: return {"●", QObject::tr("Advised"), "soft"};
    case Severity::Notice: break;
    }
    return {"○", QObject::tr("Note"), "muted"};
}

} // namespace

Panel::Panel(const QString& title, QWidget* parent) : QFrame(parent), m_title(new QLabel), m_body(new QVBoxLayout) {
    setProperty("surface", QStringLiteral("panel"));
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(2 * unit, 2 * unit, 2 * unit, 2 * unit);
    outer->setSpacing(unit);
    m_title->setFont(look::font(Text::PanelTitle));
    m_title->setWordWrap(true);
    outer->addWidget(m_title);
    m_body->setSpacing(unit);
    outer->addLayout(m_body, 1);
    setTitle(title);
}

void Panel::setTitle(const QString& title) {
    m_title->setText(title);
    m_title->setVisible(!title.isEmpty());
    setAccessibleName(title);
}

void Panel::setMark(Mark mark) {
    restyle(this, "mark",
            mark == Mark::InHand  ? QStringLiteral("in-hand")
            : mark == Mark::Wrong ? QStringLiteral("wrong")
                                  : QString());
}

IconView::IconView(const QIcon& icon, int size, QWidget* parent) : QWidget(parent), m_icon(icon) {
    setFixedSize(size, size);
}

void IconView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    m_icon.paint(&painter, rect());
}

QLabel* label(Text role, const QString& text, bool bold) {
    auto* l = new QLabel(text);
    l->setFont(font(role, bold));
    l->setTextFormat(Qt::PlainText);
    l->setWordWrap(true);
    l->setTextInteractionFlags(Qt::TextSelectableByMouse);
    l->setFocusPolicy(Qt::NoFocus);
    return l;
}

QLabel* mutedLabel(Text role, const QString& text) {
    auto* l = label(role, text);
    setTone(l, QStringLiteral("muted"));
    return l;
}

void setTone(QLabel* label, const QString& tone) {
    restyle(label, "tone", tone);
}

QString shown(QString name) {
    return name.replace(QLatin1Char('&'), QStringLiteral("&&"));
}

QPushButton* button(const QString& text) {
    auto* b = new QPushButton(text);
    b->setAutoDefault(false);
    b->setMinimumHeight(buttonHeight);
    return b;
}

QPushButton* primaryButton(const QString& text) {
    auto* b = button(text);
    b->setProperty("primary", true);
    return b;
}

QPushButton* quietButton(const QString& text) {
    auto* b = new QPushButton(text);
    b->setAutoDefault(false);
    b->setProperty("quiet", true);
    return b;
}

QWidget* cautionBox(const Caution& caution) {
    auto* box = new QFrame;
    box->setProperty("surface", QStringLiteral("caution"));
    box->setProperty("tone", tone(caution.word));
    box->setAccessibleName(signalText(caution.word) + QStringLiteral(": ") + caution.text);
    auto* row = new QHBoxLayout(box);
    row->setContentsMargins(12, 12, 12, 12);
    row->setSpacing(12);
    row->addWidget(new IconView(cautionIcon(caution.subject), 4 * unit), 0, Qt::AlignTop);
    auto* text = new QVBoxLayout;
    text->setSpacing(2);
    auto* word = label(Text::Body, signalText(caution.word), true);
    setTone(word, tone(caution.word));
    text->addWidget(word);
    text->addWidget(label(Text::Body, caution.text));
    row->addLayout(text, 1);
    return box;
}

QWidget* findingRow(const Finding& finding) {
    const SeverityLook severity = lookOf(finding.severity);
    auto* row = new QWidget;
    row->setAccessibleName(severity.word + QStringLiteral(": ") + sentence(finding));
    auto* layout = new QHBoxLayout(row);
    layout->setContentsMargins(0, unit / 2, 0, unit / 2);
    layout->setSpacing(unit);
    auto* word = label(Text::Body, QString::fromUtf8(severity.shape) + QStringLiteral(" ") + severity.word, true);
    setTone(word, QString::fromLatin1(severity.tone));
    word->setWordWrap(false);
    word->setMinimumWidth(14 * unit);
    layout->addWidget(word, 0, Qt::AlignTop);
    auto* text = new QVBoxLayout;
    text->setSpacing(2);
    text->addWidget(label(Text::Body, finding.reason));
    if (!finding.remedy.isEmpty()) text->addWidget(mutedLabel(Text::Body, finding.remedy));
    layout->addLayout(text, 1);
    return row;
}

void clear(QLayout* layout) {
    while (QLayoutItem* item = layout->takeAt(0)) {
        if (QWidget* w = item->widget()) {
            w->hide();
            w->deleteLater();
        } else if (QLayout* inner = item->layout()) {
            clear(inner);
        }
        delete item;
    }
}

} // namespace interlude::look
