#pragma once
// The help page of a tab beside the window, from resources/help/*.md. Esc closes it; links lead to other pages.

#include <QDialog>

class QTextBrowser;

namespace interlude {

class HelpWindow final : public QDialog {
    Q_OBJECT
public:
    explicit HelpWindow(QWidget* parent = nullptr);
    /// `page` as in resources/help, without suffix ("stock"). A page that is not there says so and lists those that are.
    void open(const QString& page);
    QString page() const { return m_page; }
    QString text() const;

private:
    QTextBrowser* m_browser;
    QString m_page;
};

} // namespace interlude
