#pragma once
// Big-endian numbers in font tables. Reading beyond the end gives 0, so that a damaged table ends in "not found".

#include <QByteArray>

namespace interlude::look {

class TableReader {
public:
    explicit TableReader(const QByteArray& bytes) : m_bytes(bytes) {}
    quint32 u16(qsizetype at) const { return byte(at) << 8 | byte(at + 1); }
    quint32 u32(qsizetype at) const { return u16(at) << 16 | u16(at + 2); }
    qsizetype size() const { return m_bytes.size(); }
    QByteArray tag(qsizetype at) const { return m_bytes.mid(at, 4); }

private:
    quint32 byte(qsizetype at) const {
        return at >= 0 && at < m_bytes.size() ? static_cast<unsigned char>(m_bytes[at]) : 0U;
    }
    QByteArray m_bytes;
};

inline void put16(QByteArray& out, quint32 v) {
    out.append(static_cast<char>(v >> 8 & 0xFF)).append(static_cast<char>(v & 0xFF));
}
inline void put32(QByteArray& out, quint32 v) {
    put16(out, v >> 16);
    put16(out, v & 0xFFFF);
}

} // namespace interlude::look
