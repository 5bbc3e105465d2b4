#include "tests/failures/disk_state.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QFileInfo>

#include <unistd.h>

namespace interlude::tests::disk {

namespace {

constexpr qint64 sector = 512;

void change(QByteArray& whole, const Change& c) {
    if (c.cut) {
        whole.resize(c.at);
        return;
    }
    if (whole.size() < c.at + c.bytes.size()) whole.append(QByteArray(c.at + c.bytes.size() - whole.size(), '\0'));
    whole.replace(c.at, c.bytes.size(), c.bytes);
}

/// The parts of a write that each reach the disk whole or not at all.
std::vector<Change> sectorsOf(const Change& c) {
    std::vector<Change> parts;
    for (qint64 at = 0; at < c.bytes.size();) {
        const qint64 end = std::min<qint64>(c.bytes.size(), (c.at + at) / sector * sector + sector - c.at);
        parts.push_back({c.at + at, c.bytes.mid(at, end - at), false});
        at = end;
    }
    return parts;
}

const char* wordOf(Call call) {
    switch (call) {
    case Write: return "write";
    case Sync: return "sync";
    case Open: return "open";
    case Truncate: return "truncate";
    case Name: return "name";
    default: return "read";
    }
}

/// A file or folder in a list of names gets another name, and all below it.
void rename(QMap<QString, int>& names, const QString& from, const QString& to) {
    QMap<QString, int> moved;
    for (const QString& name : names.keys())
        if (name == from || name.startsWith(from + QLatin1Char('/'))) moved.insert(to + name.mid(from.size()), names.take(name));
    names.insert(moved);
}

} // namespace

QByteArray File::whole() const {
    QByteArray all = synced;
    for (const Change& c : changes) change(all, c);
    return all;
}

State& State::the() {
    static State& state = *new State; // calls come until the very end of the program
    return state;
}

QString State::watched(int descriptor) const {
    if (m_folder.isEmpty()) return {};
    char target[4096];
    const QByteArray link = "/proc/self/fd/" + QByteArray::number(descriptor);
    const ssize_t length = ::readlink(link.constData(), target, sizeof target - 1);
    if (length <= 0) return {};
    target[length] = '\0';
    return watched(target);
}

QString State::watched(const char* path) const {
    if (m_folder.isEmpty() || !path) return {};
    QString whole = QFile::decodeName(path);
    if (!whole.startsWith(QLatin1Char('/'))) whole = QDir::currentPath() + QLatin1Char('/') + whole;
    if (whole + QLatin1Char('/') == m_folder) return whole;
    return whole.startsWith(m_folder) ? whole : QString();
}

std::optional<Trouble> State::meets(Call call, const QString& path) {
    ++m_counts[call];
    if (m_off) return Trouble::Power;
    if (m_nth == 0 || !(m_calls & call)) return {};
    ++m_seen;
    if (m_seen < m_nth || (m_seen > m_nth && !m_onwards)) return {};
    if (m_struck.isEmpty()) m_struck = QString::fromLatin1(wordOf(call)) + QLatin1Char(' ') + QFileInfo(path).fileName();
    m_off = m_dying = m_trouble == Trouble::Power;
    return m_trouble;
}

File& State::fileAt(const QString& path) {
    const auto known = m_names.constFind(path);
    if (known != m_names.constEnd()) return m_files[static_cast<size_t>(*known)];
    m_names.insert(path, static_cast<int>(m_files.size()));
    return m_files.emplace_back();
}

void State::opened(const QString& path, bool made) {
    if (!made) return;
    m_names.remove(path); // another file of that name may still be on the disk
    fileAt(path);
}

void State::wrote(const QString& path, qint64 at, const void* bytes, qint64 length) {
    fileAt(path).changes.push_back({at, QByteArray(static_cast<const char*>(bytes), length), false});
}

void State::cutAt(const QString& path, qint64 length) { fileAt(path).changes.push_back({length, {}, true}); }

void State::synced(const QString& path) {
    if (path + QLatin1Char('/') == m_folder || QFileInfo(path).isDir()) {
        // A folder keeps the names in it, not what is in the files.
        const QString below = path + QLatin1Char('/');
        const auto isIn = [&](const QString& name) { return name.startsWith(below) && !name.mid(below.size()).contains(QLatin1Char('/')); };
        for (const auto& [from, to] : std::exchange(m_movedFolders, {}))
            if (isIn(to)) rename(m_syncedNames, from, to);
            else m_movedFolders.emplace_back(from, to);
        for (const QString& name : m_syncedNames.keys())
            if (isIn(name)) m_syncedNames.remove(name);
        for (auto it = m_names.cbegin(); it != m_names.cend(); ++it)
            if (isIn(it.key())) m_syncedNames.insert(it.key(), it.value());
        return;
    }
    File& file = fileAt(path);
    file.synced = file.whole();
    file.changes.clear();
}

void State::renamed(const QString& from, const QString& to) {
    if (QFileInfo(to).isDir()) m_movedFolders.emplace_back(from, to);
    rename(m_names, from, to);
}

void State::linked(const QString& from, const QString& to) {
    fileAt(from);
    m_names.insert(to, m_names.value(from));
}

void State::removed(const QString& path) { m_names.remove(path); }

void watch(const QString& folder) {
    State& s = State::the();
    const std::scoped_lock lock(s.mutex);
    release();
    QDirIterator files(folder, QDir::Files | QDir::Hidden | QDir::NoSymLinks, QDirIterator::Subdirectories);
    while (files.hasNext()) {
        const QString path = QFileInfo(files.next()).canonicalFilePath();
        QFile file(path);
        if (!file.open(QIODevice::ReadOnly)) qFatal("%s cannot be read", qPrintable(path));
        s.fileAt(path).synced = file.readAll();
    }
    s.m_syncedNames = s.m_names;
    s.m_folder = QFileInfo(folder).canonicalFilePath() + QLatin1Char('/');
}

void release() {
    State& s = State::the();
    const std::scoped_lock lock(s.mutex);
    heal();
    s.m_folder.clear();
    s.m_names.clear();
    s.m_syncedNames.clear();
    s.m_files.clear();
    s.m_movedFolders.clear();
    s.m_counts.clear();
}

void strike(int nth, Trouble trouble, bool onwards, unsigned calls) {
    State& s = State::the();
    const std::scoped_lock lock(s.mutex);
    heal();
    s.m_counts.clear();
    s.m_nth = nth;
    s.m_seen = 0;
    s.m_trouble = trouble;
    s.m_onwards = onwards;
    s.m_calls = calls;
    s.m_struck.clear();
}

void heal() {
    State& s = State::the();
    const std::scoped_lock lock(s.mutex);
    s.m_nth = 0;
    s.m_off = false;
    s.m_full.clear();
}

int count(unsigned calls) {
    State& s = State::the();
    const std::scoped_lock lock(s.mutex);
    int all = 0;
    for (auto it = s.m_counts.cbegin(); it != s.m_counts.cend(); ++it)
        if (it.key() & calls) all += it.value();
    return all;
}

QString struck() {
    State& s = State::the();
    const std::scoped_lock lock(s.mutex);
    return s.m_struck;
}

void leave(const QString& into, Loss loss, std::mt19937& random) {
    State& s = State::the();
    const std::scoped_lock lock(s.mutex);
    const QMap<QString, int>& names = loss == Loss::All ? s.m_syncedNames : s.m_names;
    for (auto it = names.cbegin(); it != names.cend(); ++it) {
        // The index of the log lives in memory that is shared between programs; a computer that was off has none.
        if (it.key().endsWith(QStringLiteral("-shm"))) continue;
        const File& file = s.m_files[static_cast<size_t>(it.value())];
        QByteArray bytes = loss == Loss::None ? file.whole() : file.synced;
        if (loss == Loss::Torn)
            for (const Change& c : file.changes) {
                const std::vector<Change> parts = c.cut ? std::vector<Change>{c} : sectorsOf(c);
                for (const Change& part : parts)
                    if (random() % 2) change(bytes, part);
            }
        const QString target = into + QLatin1Char('/') + it.key().mid(s.m_folder.size());
        QDir().mkpath(QFileInfo(target).absolutePath());
        QFile out(target);
        if (!out.open(QIODevice::WriteOnly) || out.write(bytes) != bytes.size()) qFatal("%s cannot be written", qPrintable(target));
    }
}

} // namespace interlude::tests::disk
