#pragma once
// Sound and flash when a countdown ends, people are needed or a scan was wrong; nothing else beeps.

#include "views/window/header.h"

#include <QTimer>

class QSoundEffect;

namespace interlude {

class Attention final : public QObject {
    Q_OBJECT
public:
    Attention(Header& header, QObject* parent);

    void call(const QString& why);
    /// Takes the reason away; the next key or click does, too, once it has been up for a while.
    void dismiss();
    bool isCalling() const { return !m_why.isEmpty(); }

private:
    void sound();

    Header& m_header;
    QSoundEffect* m_effect = nullptr;
    QTimer m_flash, m_end;
    QString m_why;
    int m_beats = 0;
};

} // namespace interlude
