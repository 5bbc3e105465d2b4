#pragma once
// The one large button of the guide. Its text says what is missing and must never be cut: it shrinks from panel title to
// body type, then breaks into two lines, then is said briefly; the whole text stays its accessible name and tip.

#include "views/look/widgets.h"

namespace interlude {

/// `text` as it fits into `width`: whole, else broken at the blank that makes both lines most alike; what is still too
/// long is elided at the end of its line.
QString fittedText(const QString& text, const QFontMetrics& metrics, int width);

class ConfirmButton final : public QPushButton {
    Q_OBJECT
public:
    explicit ConfirmButton(QWidget* parent = nullptr);
    /// `brief` stands on the button where the whole text does not fit.
    void setFullText(const QString& text, const QString& brief = {});
    QString fullText() const { return m_full; }

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void fit();
    QString m_full, m_brief;
};

} // namespace interlude
