#pragma once
// Random numbers for the search: the same on every machine and with every library, so that a seed means one plan.
// (xoshiro256++ of Blackman and Vigna, public domain, seeded by splitmix64; private to model/planning.)

#include <array>
#include <cstdint>

namespace interlude::planning {

class Random {
public:
    explicit Random(std::uint64_t seed) {
        for (auto& word : m_word)
            word = splitMix(seed);
    }

    std::uint64_t next() {
        const std::uint64_t result = rotate(m_word[0] + m_word[3], 23) + m_word[0];
        const std::uint64_t t = m_word[1] << 17;
        m_word[2] ^= m_word[0];
        m_word[3] ^= m_word[1];
        m_word[1] ^= m_word[2];
        m_word[0] ^= m_word[3];
        m_word[2] ^= t;
        m_word[3] = rotate(m_word[3], 45);
        return result;
    }
    /// 0 … n − 1; n > 0.
    int below(int n) {
        const std::uint64_t high = next() >> 32;
        return static_cast<int>((high * static_cast<std::uint64_t>(n)) >> 32);
    }
    /// In [0, 1).
    double unit() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }

private:
    static std::uint64_t rotate(std::uint64_t x, int by) { return (x << by) | (x >> (64 - by)); }
    static std::uint64_t splitMix(std::uint64_t& x) {
        std::uint64_t z = (x += 0x9e3779b97f4a7c15U);
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31);
    }
    std::array<std::uint64_t, 4> m_word{};
};

} // namespace interlude::planning
