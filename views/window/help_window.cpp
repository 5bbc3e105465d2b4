#include "views/window/help_window.h"

#include "views/look/look.h"

#include <QDir>
#include <QFile>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace interlude {

namespace {
const QString folder = QStringLiteral(":/help/");
} // namespace

HelpWindow::HelpWindow(QWidget* parent) : QDialog(parent), m_browser(new QTextBrowser) {
    setWindowTitle(tr("Help"));
    setAccessibleName(windowTitle());
    m_browser->setAccessibleName(tr("Help page"));
    m_browser->setOpenLinks(false);
    m_browser->setFont(look::font(look::Text::Detail));
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->addWidget(m_browser);
    resize(60 * look::unit, 80 * look::unit);
    connect(m_browser, &QTextBrowser::anchorClicked, this, [this](const QUrl& url) {
        QString name = url.path();
        if (url.scheme().isEmpty() && name.endsWith(QStringLiteral(".md"))) open(name.chopped(3));
    });
}

void HelpWindow::open(const QString& page) {
    m_page = page;
    QFile file(folder + page + QStringLiteral(".md"));
    if (file.open(QIODevice::ReadOnly)) {
        m_browser->setMarkdown(QString::fromUtf8(file.readAll()));
    } else {
        QString text = tr("# No help page “%1”\n\nThe pages are:\n\n").arg(page);
        for (const QString& name : QDir(folder).entryList({QStringLiteral("*.md")}, QDir::Files, QDir::Name))
            text += QStringLiteral("- [%1](%2)\n").arg(name.chopped(3), name);
        m_browser->setMarkdown(text);
    }
    if (QWidget* beside = parentWidget(); beside && !isVisible()) {
        const QPoint corner = beside->mapToGlobal(QPoint(beside->width() - width() - look::unit, 8 * look::unit));
        resize(width(), qMax(height(), beside->height() - 14 * look::unit));
        move(corner);
    }
    show();
    raise();
    activateWindow();
    m_browser->setFocus();
}

QString HelpWindow::text() const {
    return m_browser->toPlainText();
}

} // namespace interlude
