#include "views/window/header.h"

#include "views/bench/keys.h"
#include "views/look/widgets.h"

#include <QHBoxLayout>
#include <QMenu>
#include <QStyle>
#include <QTabBar>

namespace interlude {

namespace {
/// Below this the tabs are scrolled.
constexpr int roomForTabs = 110 * look::unit;
} // namespace

Header::Header(Bench& bench, QWidget* parent)
    : QFrame(parent), m_bench(bench), m_tabs(new QTabBar), m_why(look::label(look::Text::Detail, {}, true)),
      m_person(look::quietButton({})), m_people(new QMenu(this)), m_menuButton(look::quietButton(tr("&Menu"))),
      m_menu(new QMenu(this)), m_clock(look::label(look::Text::PanelTitle)) {
    setProperty("surface", QStringLiteral("header"));
    m_tabs->setAccessibleName(tr("Tabs"));
    m_tabs->setDrawBase(false);
    m_tabs->setExpanding(false);
    m_tabs->setUsesScrollButtons(false);
    m_tabs->setElideMode(Qt::ElideNone);
    m_tabs->setFont(look::font(look::Text::Detail));
    m_why->setWordWrap(false);
    m_why->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred); // what is too long is cut, never laid over the tabs
    m_clock->setWordWrap(false);
    m_clock->setAccessibleName(tr("Clock of the shop"));
    m_person->setMenu(m_people);
    m_people->setAccessibleName(tr("Sign in"));
    m_menuButton->setMenu(m_menu);
    m_menu->setAccessibleName(tr("Menu"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(look::unit, 0, 2 * look::unit, 0);
    row->setSpacing(2 * look::unit);
    row->addWidget(m_tabs, 0, Qt::AlignBottom);
    row->addWidget(m_why, 1);
    row->addStretch(0);
    row->addWidget(m_person);
    row->addWidget(m_menuButton);
    row->addWidget(m_clock);
    connect(m_people, &QMenu::aboutToShow, this, &Header::fillPeople);
    connect(&bench, &Bench::ticked, this, &Header::refresh);
    connect(&bench, &Bench::signedIn, this, &Header::refresh);
    connect(&bench, &Bench::changed, this, &Header::refresh);
    connect(&keys(), &Keys::changed, this, &Header::refresh);
    fillPeople();
    refresh();
}

void Header::fillPeople() {
    m_people->clear();
    const auto add = [this](const QString& text, const QString& initials) {
        QAction* action = m_people->addAction(text, this, [this, initials] { m_bench.signIn(initials); });
        action->setCheckable(true);
        action->setChecked(m_bench.who() == initials);
        action->setData(initials);
    };
    for (const Person& p : m_bench.catalogue().fleet.people) {
        QString text = QStringLiteral("%1 · %2").arg(p.initials, p.name);
        if (!p.roles.isEmpty()) text += QStringLiteral(" · ") + p.roles.join(QStringLiteral(", "));
        add(look::shown(text), p.initials);
    }
    m_people->addSeparator();
    add(tr("Nobody (read-only)"), {});
}

void Header::refresh() {
    const QString time = toZone(m_bench.now(), m_bench.catalogue().fleet.zone).toString(QStringLiteral("HH:mm"));
    if (m_clock->text() != time) m_clock->setText(time);
    const Person* person = m_bench.catalogue().person(m_bench.who());
    QString who = tr("Sign in");
    if (person && !person->roles.isEmpty()) who = QStringLiteral("%1 · %2").arg(person->initials, person->roles.first());
    else if (!m_bench.who().isEmpty()) who = m_bench.who();
    m_person->setToolTip(tr("Choose who works here%1").arg(keyHint(QStringLiteral("sign-in"))));
    if (m_person->text() == look::shown(who)) return;
    m_person->setText(look::shown(who));
    m_person->setAccessibleName(m_bench.who().isEmpty() ? tr("Nobody is signed in: sign in") : tr("Signed in: %1").arg(who));
}

void Header::resizeEvent(QResizeEvent* event) {
    m_tabs->setUsesScrollButtons(width() < roomForTabs);
    QFrame::resizeEvent(event);
}

void Header::openSignIn() {
    fillPeople();
    m_people->popup(m_person->mapToGlobal(QPoint(0, m_person->height())));
    if (!m_people->actions().isEmpty()) m_people->setActiveAction(m_people->actions().first());
}

void Header::setAttention(const QString& why, bool lit) {
    const QString text = why.isEmpty() ? QString() : QStringLiteral("▶ ") + why;
    m_why->setText(m_why->fontMetrics().elidedText(text, Qt::ElideRight, m_why->width()));
    m_why->setToolTip(text);
    m_why->setAccessibleName(text);
    setProperty("flash", lit);
    for (QWidget* w : findChildren<QWidget*>() + QList<QWidget*>{this}) {
        w->style()->unpolish(w);
        w->style()->polish(w);
    }
}

} // namespace interlude
