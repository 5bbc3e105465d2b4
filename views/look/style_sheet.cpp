#include "views/look/style_sheet.h"

namespace interlude::look {

namespace {

// @name stands for a colour, @radius and @button for a size; nothing else is replaced.
constexpr auto sheet = R"(
QMainWindow, QDialog { background: @ground; }
QToolTip { background: @panel; color: @text; border: 1px solid @edge; padding: 6px; }
QLabel { background: transparent; }
QLabel[tone="muted"] { color: @muted; }
QLabel[tone="soft"] { color: @soft; }
QLabel[tone="alarm"] { color: @alarm; }
QLabel[tone="good"] { color: @good; }
QLabel[tone="warning"] { color: @warning; }
QLabel[tone="danger"] { color: @danger; }
QLabel[tone="caution"] { color: @caution; }
QLabel[tone="notice"] { color: @notice; }

QFrame[surface="panel"] { background: @panel; border: 1px solid @line; border-radius: @radiuspx; }
QFrame[surface="panel"][mark="in-hand"] { border: 2px solid @accent; }
QFrame[surface="panel"][mark="wrong"] { border: 2px solid @alarm; }
QFrame[surface="bar"] { background: @panel; border: none; border-top: 1px solid @line; }
QFrame[surface="header"] { background: @panel; border: none; border-bottom: 1px solid @line; }
QFrame[surface="header"][flash="true"] { background: @accent; }
QFrame[surface="header"][flash="true"] QLabel { color: @onAccent; }
QFrame[surface="header"][flash="true"] QTabBar::tab { color: @onAccent; background: transparent; }
QFrame[surface="header"][flash="true"] QPushButton { color: @onAccent; }
QFrame[surface="message"] { background: @panel; border: 2px solid @alarm; border-radius: @radiuspx; }
QFrame[surface="caution"] { background: @panel; border: 1px solid @line; border-radius: @radiuspx; }
QFrame[surface="caution"][tone="danger"] { border: 2px solid @danger; }
QFrame[surface="caution"][tone="warning"] { border: 1px solid @warning; }
QFrame[surface="caution"][tone="caution"] { border: 1px solid @caution; }
QFrame[surface="caution"][tone="notice"] { border: 1px solid @notice; }

QPushButton { background: @panel; color: @text; border: 1px solid @edge; border-radius: @radiuspx; padding: 0 14px;
    min-height: @innerpx; font-weight: 500; }
QPushButton:hover { background: @selected; }
QPushButton:pressed { background: @line; }
QPushButton:checked { background: @selected; border: 2px solid @accent; }
QPushButton:focus { border: 2px solid @accent; padding: 0 13px; }
QPushButton:disabled { color: @muted; border-color: @line; }
QPushButton[primary="true"] { background: @accent; color: @onAccent; border-color: @accent; }
QPushButton[primary="true"]:hover, QPushButton[primary="true"]:pressed { background: @accentHover; }
QPushButton[primary="true"]:focus { border: 2px solid @text; }
QPushButton[primary="true"]:disabled { background: @line; color: @soft; border-color: @line; }
QPushButton[flat="true"], QPushButton[quiet="true"] { border: 1px solid transparent; background: transparent;
    padding: 0 8px; }
QPushButton[quiet="true"] { min-height: 24px; font-weight: 400; color: @soft; }
QPushButton[quiet="true"]:hover { background: @selected; }
QPushButton[quiet="true"]:focus { border: 2px solid @accent; padding: 0 7px; }
QPushButton::menu-indicator { width: 0; }
QToolButton { background: transparent; border: 1px solid transparent; border-radius: @radiuspx; padding: 4px;
    min-width: 24px; min-height: 24px; }
QToolButton:hover { background: @selected; }
QLineEdit QToolButton { padding: 0; border: none; min-height: 0; min-width: 0; }
QToolButton:focus { border: 2px solid @accent; padding: 3px; }

QLineEdit, QPlainTextEdit, QTextEdit, QComboBox, QAbstractSpinBox, QDateTimeEdit { background: @panel; color: @text;
    border: 1px solid @edge; border-radius: @radiuspx; padding: 0 8px; selection-background-color: @accent;
    selection-color: @onAccent; }
QLineEdit, QComboBox, QAbstractSpinBox, QDateTimeEdit { min-height: 34px; }
QPlainTextEdit, QTextEdit { padding: 6px; }
QLineEdit:focus, QPlainTextEdit:focus, QTextEdit:focus, QComboBox:focus, QAbstractSpinBox:focus,
QDateTimeEdit:focus { border: 2px solid @accent; padding: 0 7px; }
QPlainTextEdit:focus, QTextEdit:focus { padding: 5px; }
QLineEdit[wrong="true"], QComboBox[wrong="true"], QAbstractSpinBox[wrong="true"] { border: 2px solid @alarm;
    padding: 0 7px; }
QLineEdit:disabled, QComboBox:disabled, QAbstractSpinBox:disabled { color: @muted; border-color: @line; }
QLineEdit:read-only { background: @ground; }
QAbstractSpinBox QLineEdit, QComboBox QLineEdit { border: none; min-height: 0; padding: 0; background: transparent; }
QComboBox::drop-down, QDateTimeEdit::drop-down { subcontrol-origin: border; subcontrol-position: center right; width: 28px;
    border: none; }
QComboBox::down-arrow, QDateTimeEdit::down-arrow, QAbstractSpinBox::down-arrow { image: url(:/marks/down.svg);
    width: 12px; height: 12px; }
QAbstractSpinBox::up-arrow { image: url(:/marks/up.svg); width: 12px; height: 12px; }
QAbstractSpinBox::up-button { subcontrol-origin: border; subcontrol-position: top right; width: 28px; border: none; }
QAbstractSpinBox::down-button { subcontrol-origin: border; subcontrol-position: bottom right; width: 28px; border: none; }
QComboBox QAbstractItemView { background: @panel; color: @text; border: 1px solid @edge; outline: none;
    selection-background-color: @accent; selection-color: @onAccent; }
QComboBox QAbstractItemView::item { min-height: 28px; }
QCheckBox, QRadioButton { spacing: 8px; min-height: 28px; border: 2px solid transparent; border-radius: @radiuspx; padding: 0 4px; }
QCheckBox:focus, QRadioButton:focus { border: 2px solid @accent; }
QGroupBox { border: 1px solid @line; border-radius: @radiuspx; margin-top: 8px; padding-top: 8px; }

QTabBar { background: transparent; }
QTabBar::tab { background: transparent; color: @soft; border: none; border-bottom: 3px solid transparent;
    padding: 12px 18px 9px 18px; min-height: 22px; }
QTabBar::tab:hover { color: @text; background: @selected; }
QTabBar::tab:selected { color: @text; border-bottom: 3px solid @accent; font-weight: 600; }
QTabBar::tab:focus { border: 2px solid @accent; border-bottom: 3px solid @accent; padding: 10px 16px 9px 16px; }

QAbstractItemView { background: @panel; color: @text; border: 1px solid @line; border-radius: @radiuspx;
    gridline-color: @line; outline: none; alternate-background-color: @panel; selection-background-color: @selected;
    selection-color: @text; }
QAbstractItemView:focus { border: 2px solid @accent; }
QAbstractItemView::item { padding: 0 5px; border: none; }
QTableView::item, QTreeView::item, QListView::item { border-bottom: 1px solid @line; }
QAbstractItemView::item:selected { background: @selected; color: @text; }
QTableView::item:selected:focus, QListView::item:selected:focus { background: @selected; color: @text; }
QHeaderView { background: @panel; border: none; }
QHeaderView::section { background: @panel; color: @muted; border: none; border-bottom: 1px solid @edge;
    border-right: 1px solid @line; padding: 0 8px; min-height: 32px; font-weight: 600; }
QHeaderView::section:last { border-right: none; }
QTableCornerButton::section { background: @panel; border: none; border-bottom: 1px solid @edge; }

QScrollArea { border: none; background: transparent; }
QScrollArea > QWidget > QWidget { background: transparent; }
QScrollArea:focus { border: 2px solid @accent; border-radius: @radiuspx; }
QAbstractScrollArea::corner { background: transparent; border: none; }
QScrollBar { background: transparent; }
QScrollBar:vertical { width: 12px; }
QScrollBar:horizontal { height: 12px; }
QScrollBar::handle { background: @edge; border-radius: 4px; margin: 2px; }
QScrollBar::handle:vertical { min-height: 32px; }
QScrollBar::handle:horizontal { min-width: 32px; }
QScrollBar::handle:hover { background: @muted; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QSplitter::handle { background: transparent; }

QMenu { background: @panel; color: @text; border: 1px solid @edge; padding: 4px; }
QMenu::item { padding: 8px 24px 8px 16px; border-radius: @radiuspx; }
QMenu::item:selected { background: @accent; color: @onAccent; }
QMenu::item:disabled { color: @muted; }
QMenu::separator { height: 1px; background: @line; margin: 4px 8px; }
QTextBrowser { background: @panel; }
QProgressBar { background: @ground; border: 1px solid @edge; border-radius: @radiuspx; text-align: center; color: @text; }
QProgressBar::chunk { background: @band; }
)";

} // namespace

QColor edgeColour(const Colours& c) {
    return mixed(c.muted, c.panel, 0.82);
}

QString styleSheet(const Colours& c) {
    // Longer names first where one begins with another.
    const QList<std::pair<QString, QString>> names = {
        {QStringLiteral("@accentHover"), mixed(c.accent, c.text, 0.85).name()},
        {QStringLiteral("@accent"), c.accent.name()},
        {QStringLiteral("@onAccent"), c.onAccent.name()},
        {QStringLiteral("@ground"), c.ground.name()},
        {QStringLiteral("@panel"), c.panel.name()},
        {QStringLiteral("@line"), c.line.name()},
        {QStringLiteral("@edge"), edgeColour(c).name()},
        {QStringLiteral("@muted"), c.muted.name()},
        {QStringLiteral("@soft"), c.soft.name()},
        {QStringLiteral("@text"), c.text.name()},
        {QStringLiteral("@selected"), c.selected.name()},
        {QStringLiteral("@alarm"), c.alarm.name()},
        {QStringLiteral("@good"), c.good.name()},
        {QStringLiteral("@danger"), c.danger.name()},
        {QStringLiteral("@warning"), c.warning.name()},
        {QStringLiteral("@caution"), c.caution.name()},
        {QStringLiteral("@notice"), c.notice.name()},
        {QStringLiteral("@band"), c.band.name()},
        {QStringLiteral("@radius"), QString::number(radius)},
        {QStringLiteral("@inner"), QString::number(buttonHeight - 4)}};
    QString out = QString::fromUtf8(sheet);
    for (const auto& [name, value] : names) out.replace(name, value);
    return out;
}

} // namespace interlude::look
