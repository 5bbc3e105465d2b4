#pragma once
// Large digits on one line, as large as the width allows between the sizes of a step title and of a countdown.

#include "views/look/look.h"

#include <QWidget>

namespace interlude {

class Digits final : public QWidget {
    Q_OBJECT
public:
    explicit Digits(QWidget* parent = nullptr);
    void setText(const QString& text);
    QString text() const { return m_text; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_text;
};

} // namespace interlude
