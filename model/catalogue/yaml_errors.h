#pragma once
// What yaml-cpp says about a syntax error, in words for a shop.

#include <QString>

#include <string>

namespace interlude {

struct SyntaxText {
    QString what, right;
};
SyntaxText syntaxText(const std::string& parserMessage);

} // namespace interlude
