#pragma once
// Contrast ratio of two opaque colours by WCAG 2.2 (W3C Recommendation, definitions of relative luminance and contrast
// ratio).

#include <QColor>

#include <algorithm>
#include <cmath>

namespace interlude::tests {

inline double linear(double channel) {
    return channel <= 0.04045 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
}

inline double luminance(const QColor& c) {
    return 0.2126 * linear(c.redF()) + 0.7152 * linear(c.greenF()) + 0.0722 * linear(c.blueF());
}

inline double contrast(const QColor& a, const QColor& b) {
    const double one = luminance(a), other = luminance(b);
    return (std::max(one, other) + 0.05) / (std::min(one, other) + 0.05);
}

} // namespace interlude::tests
