#include "views/window/attention.h"

#include <QApplication>
#include <QAudioDevice>
#include <QMediaDevices>
#include <QSoundEffect>

namespace interlude {

namespace {
constexpr int beats = 6; // lit and unlit by turns; 3 flashes in 2.4 s stay below the 3 a second of WCAG 2.3.1
constexpr int beatMs = 400;
constexpr int shownMs = 30'000;
} // namespace

Attention::Attention(Header& header, QObject* parent) : QObject(parent), m_header(header) {
    m_flash.setInterval(beatMs);
    m_end.setInterval(shownMs);
    m_end.setSingleShot(true);
    connect(&m_flash, &QTimer::timeout, this, [this] {
        ++m_beats;
        m_header.setAttention(m_why, m_beats % 2 == 0 && m_beats < beats);
        if (m_beats >= beats) m_flash.stop();
    });
    connect(&m_end, &QTimer::timeout, this, &Attention::dismiss);
}

void Attention::call(const QString& why) {
    m_why = why;
    m_beats = 0;
    m_header.setAttention(m_why, true);
    m_flash.start();
    m_end.start();
    sound();
}

void Attention::dismiss() {
    m_why.clear();
    m_flash.stop();
    m_end.stop();
    m_header.setAttention({}, false);
}

void Attention::sound() {
    // A bench PC without a sound card must not lose more than the sound.
    if (QMediaDevices::audioOutputs().isEmpty()) {
        QApplication::beep();
        return;
    }
    if (!m_effect) {
        m_effect = new QSoundEffect(this);
        m_effect->setSource(QUrl(QStringLiteral("qrc:/sounds/attention.wav")));
    }
    m_effect->play();
}

} // namespace interlude
