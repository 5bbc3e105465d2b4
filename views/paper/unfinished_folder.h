#pragma once
// A folder of several files that is there whole or not at all.

#include <QDir>

namespace interlude::paper {

/// Filled under a hidden name beside the wanted one; taken away again, with the parents made for it, unless it was kept.
class UnfinishedFolder {
public:
    explicit UnfinishedFolder(const QString& folder);
    ~UnfinishedFolder();
    Q_DISABLE_COPY_MOVE(UnfinishedFolder)

    /// False when it could not be made.
    bool isThere() const { return m_there; }
    QDir dir() const { return QDir(m_path); }
    /// Gives it the wanted name, which must not exist yet.
    bool keep();

private:
    QString m_wanted, m_path;
    QStringList m_made; ///< parents that were not there before, innermost first
    bool m_there = false, m_kept = false;
};

} // namespace interlude::paper
