#include "views/paper/unfinished_folder.h"

#include <QFileInfo>

namespace interlude::paper {

UnfinishedFolder::UnfinishedFolder(const QString& folder) : m_wanted(QDir::cleanPath(QFileInfo(folder).absoluteFilePath())) {
    const QFileInfo whole(m_wanted);
    for (QString parent = whole.absolutePath(); !QFileInfo::exists(parent); parent = QFileInfo(parent).absolutePath()) m_made.append(parent);
    QDir().mkpath(whole.absolutePath());
    // One that is there already was left by a program that was ended, or belongs to another that writes now.
    constexpr int most = 100;
    for (int i = 1; i <= most && !m_there; ++i) {
        const QString number = i == 1 ? QString() : QStringLiteral("-%1").arg(i);
        m_path = whole.absoluteDir().filePath(QStringLiteral(".%1.unfinished%2").arg(whole.fileName(), number));
        m_there = !QFileInfo::exists(m_path) && QDir().mkdir(m_path);
    }
}

UnfinishedFolder::~UnfinishedFolder() {
    if (m_kept) return;
    if (m_there) QDir(m_path).removeRecursively();
    for (const QString& parent : m_made) QDir().rmdir(parent);
}

bool UnfinishedFolder::keep() {
    m_kept = QDir().rename(m_path, m_wanted);
    return m_kept;
}

} // namespace interlude::paper
