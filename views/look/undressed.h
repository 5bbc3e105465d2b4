#pragma once
// For as long as a window of many parts is built the style sheet is taken off: with it Qt dresses every part anew whenever it
// is put into another one, which makes half of the time until the first picture.

#include <QApplication>

namespace interlude::look {

class Undressed {
public:
    explicit Undressed(QApplication& app) : m_app(app), m_sheet(app.styleSheet()) { m_app.setStyleSheet({}); }
    /// Everything is dressed, once.
    ~Undressed() { m_app.setStyleSheet(m_sheet); }
    Undressed(const Undressed&) = delete;
    Undressed& operator=(const Undressed&) = delete;

private:
    QApplication& m_app;
    QString m_sheet;
};

} // namespace interlude::look
