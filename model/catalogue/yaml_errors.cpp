#include "model/catalogue/yaml_errors.h"

#include <yaml-cpp/exceptions.h>

namespace interlude {

namespace {
struct Known {
    const char* said;
    const char* what;
    const char* right;
};
constexpr const char* quoteIt = "put a text that holds special characters in quotes";

const Known known[] = {
    {YAML::ErrorMsg::MAP_VALUE, "a `:` where no key can stand", "check the indentation, or put the text in quotes"},
    {YAML::ErrorMsg::MAP_KEY, "a key where none can stand", "check the indentation of this line"},
    {YAML::ErrorMsg::BLOCK_ENTRY, "a `-` where no list can stand", "check its indentation, and that brackets and quotes before it are closed"},
    {YAML::ErrorMsg::END_OF_MAP, "the entries before this do not line up", "indent the keys of one entry alike, each with `: ` after it"},
    {YAML::ErrorMsg::END_OF_SEQ, "the list before this does not line up", "indent its `-` alike"},
    {YAML::ErrorMsg::END_OF_MAP_FLOW, "a `{` is not closed, or a comma is missing", "write {key: value, key: value}"},
    {YAML::ErrorMsg::END_OF_SEQ_FLOW, "a `[` is not closed, or a comma is missing", "write [one, two]"},
    {YAML::ErrorMsg::FLOW_END, "a `]` or `}` that closes nothing", "remove it, or open it first"},
    {YAML::ErrorMsg::TAB_IN_INDENTATION, "a tab in the indentation", "indent with spaces"},
    {YAML::ErrorMsg::EOF_IN_SCALAR, "the file ends inside a quoted text", "close the quotes"},
    {YAML::ErrorMsg::DOC_IN_SCALAR, "`---` or `...` inside a quoted text", "close the quotes before it"},
    {YAML::ErrorMsg::CHAR_IN_SCALAR, "a character that cannot stand in a text", quoteIt},
    {YAML::ErrorMsg::UNKNOWN_TOKEN, "a character that no text can begin with", quoteIt},
    {YAML::ErrorMsg::CHAR_IN_BLOCK, "something follows the sign of a block text", "begin the text on the next line"},
    {YAML::ErrorMsg::ZERO_INDENT_IN_BLOCK, "a block text without indentation", "indent it by one or more"},
    {YAML::ErrorMsg::UNKNOWN_ANCHOR, "an alias of nothing, a word that begins with `*`", "write out what it stands for, or put the text in quotes"},
    {YAML::ErrorMsg::ALIAS_NOT_FOUND, "a `*` without a name", quoteIt},
    {YAML::ErrorMsg::ANCHOR_NOT_FOUND, "a `&` without a name", quoteIt},
    {YAML::ErrorMsg::CHAR_IN_ALIAS, "a text that begins with `*`", quoteIt},
    {YAML::ErrorMsg::CHAR_IN_ANCHOR, "a text that begins with `&`", quoteIt},
    {YAML::ErrorMsg::INVALID_ALIAS, "a text that begins with `*`", quoteIt},
    {YAML::ErrorMsg::INVALID_ANCHOR, "a text that begins with `&`", quoteIt},
};
} // namespace

SyntaxText syntaxText(const std::string& parserMessage) {
    for (const Known& k : known)
        if (parserMessage == k.said) return {QString::fromUtf8(k.what), QString::fromUtf8(k.right)};
    // The only message with a part of its own: a Windows path in double quotes, as a rule.
    if (const std::string escape = YAML::ErrorMsg::INVALID_ESCAPE; parserMessage.rfind(escape, 0) == 0)
        return {QStringLiteral("`\\%1` means nothing in a text in double quotes").arg(QString::fromStdString(parserMessage.substr(escape.size())).left(4)),
                QStringLiteral("use single quotes, or write `\\\\` for a backslash")};
    return {QStringLiteral("not YAML (%1)").arg(QString::fromStdString(parserMessage)),
            QStringLiteral("check this line and the one before it")};
}

} // namespace interlude
