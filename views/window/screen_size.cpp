#include "views/window/screen_size.h"

#include "views/asking/ask_dialog.h"
#include "views/look/look.h"
#include "views/today/wall_view.h"

#include <QCoreApplication>
#include <QLineEdit>
#include <QLocale>
#include <QPainter>
#include <QScreen>

namespace interlude {

namespace {

constexpr double rulerMm = 100;

QString tr(const char* text) {
    return QCoreApplication::translate("ScreenSize", text);
}

/// A line that is 100 mm long if the screen's size is what the program takes it for.
class RulerLine final : public QWidget {
public:
    explicit RulerLine(double pixelsPerMm) : m_length(rulerMm * pixelsPerMm) {
        setFixedHeight(3 * look::unit);
        setMinimumWidth(static_cast<int>(m_length) + 2);
        setAccessibleName(tr("A line that should be 100 mm long"));
    }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter p(this);
        p.setPen(QPen(look::colours().text, 2));
        const double middle = height() / 2.0;
        p.drawLine(QPointF(1, middle), QPointF(1 + m_length, middle));
        for (const double x : {1.0, 1 + m_length}) p.drawLine(QPointF(x, 2), QPointF(x, height() - 2));
    }

private:
    double m_length;
};

QString saidBy(const QScreen& screen, const Density& density) {
    const QString size = tr("%1 × %2 mm").arg(screen.physicalSize().width(), 0, 'f', 0).arg(screen.physicalSize().height(), 0, 'f', 0);
    switch (density.from) {
    case Density::From::Measured: return tr("The size measured here is used.");
    case Density::From::Screen: return tr("The screen says that it is %1.").arg(size);
    case Density::From::Assumed: break;
    }
    return tr("The screen says %1, which cannot be: it is taken for one of 96 pixels per inch.").arg(size);
}

} // namespace

AskDialog* askScreenSize(QWidget* parent) {
    const QScreen& screen = *parent->screen();
    const auto measured = WallView::measuredWidth(screen.name());
    const Density density = wallDensity(screen.size(), screen.physicalSize(), measured);
    auto* d = new AskDialog(tr("Size of the screen"),
                            tr("The wall view is readable from two metres only if the size of this screen is known. %1 If the line "
                               "below is not 100 mm long, measure the width of the picture.").arg(saidBy(screen, density)),
                            tr("Use this width"), parent);
    d->setObjectName(QStringLiteral("screenSizeDialog"));
    auto* ruler = new RulerLine(density.perMm);
    d->setMinimumWidth(ruler->minimumWidth() + 30 * look::unit); // beside its caption
    d->addWidget(tr("100 mm"), ruler);
    QLineEdit* width = d->addLine(QStringLiteral("screenWidth"), tr("Width of the picture, mm"),
                                  measured ? QLocale().toString(*measured, 'g', 6) : QString(), tr("empty: as the screen says"));
    d->setAct([=, name = screen.name()]() -> std::optional<Finding> {
        const QString text = width->text().trimmed();
        bool number = true;
        const double mm = text.isEmpty() ? 0 : QString(text).replace(QLatin1Char(','), QLatin1Char('.')).toDouble(&number);
        if (!number || (!text.isEmpty() && (mm < 100 || mm > 5000)))
            return Finding{Severity::Refusal, QStringLiteral("screen-width"), tr("“%1” is no width of a screen").arg(text),
                           tr("a number of millimetres between 100 and 5000, or nothing"), {}, false};
        WallView::keepMeasuredWidth(name, mm);
        return std::nullopt;
    });
    d->open();
    width->setFocus();
    return d;
}

} // namespace interlude
