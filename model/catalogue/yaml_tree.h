#pragma once
// One YAML file as a tree of our own, built from yaml-cpp's events, because its node tree silently accepts duplicate keys
// and aliases that refer to themselves, and forgets where keys stand.

#include "model/catalogue/problem.h"

#include <QString>

#include <optional>
#include <vector>

namespace interlude {

struct Where {
    QString file;
    int line = 0, column = 0; ///< from 1
};

struct YamlEntry;

struct YamlNode {
    enum class Kind {
        Broken, ///< already complained about (alias, tag); readers stay silent
        Null,
        Scalar,
        Sequence,
        Map
    };
    Kind kind = Kind::Null;
    Where where;
    QString text; ///< of a scalar, quoted or not
    std::vector<YamlNode> items;
    std::vector<YamlEntry> entries;

    /// Value of a key, or null. Maps are small; the order of the file is kept.
    const YamlNode* find(const QString& key) const;
};

struct YamlEntry {
    QString key;
    Where where;
    YamlNode value;
};

/// Reads one document. Duplicate keys, anchors, aliases, tags and further documents are problems, all of them reported; a
/// syntax error, nesting deeper than 40 or more than 300,000 values ends the reading with an empty answer. An empty file
/// is a Null node.
std::optional<YamlNode> readYaml(const QString& file, const QString& text, Problems& problems);

} // namespace interlude
