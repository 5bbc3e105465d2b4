#include "views/bench/key_list.h"

namespace interlude {

namespace {

using Scope = Keys::Scope;
using Kind = Keys::Kind;

Keys::Use free(Scope scope, const char* id, const QString& does, const char* key) {
    return {QString::fromLatin1(id), scope, Kind::Free, does, {QKeySequence(QString::fromLatin1(key))}};
}

Keys::Use guide(const char* id, Kind kind, const QString& does, const char* key) {
    return {QString::fromLatin1(id), Scope::Changeover, kind, does, {QKeySequence(QString::fromLatin1(key))}};
}

Keys::Use fixed(Scope scope, const char* id, const QString& does, const QList<const char*>& presets) {
    Keys::Use use{QString::fromLatin1(id), scope, Kind::Fixed, does, {}};
    for (const char* key : presets) use.presets.append(QKeySequence(QString::fromLatin1(key)));
    return use;
}

QList<Keys::Use> ofWindow() {
    return {free(Scope::Window, "tab.today", Keys::tr("Today"), "Ctrl+1"),
            free(Scope::Window, "tab.changeover", Keys::tr("Changeover"), "Ctrl+2"),
            free(Scope::Window, "tab.plan", Keys::tr("Plan"), "Ctrl+3"),
            free(Scope::Window, "tab.stock", Keys::tr("Stock"), "Ctrl+4"),
            free(Scope::Window, "tab.nozzles", Keys::tr("Nozzles"), "Ctrl+5"),
            free(Scope::Window, "tab.records", Keys::tr("Records"), "Ctrl+6"),
            free(Scope::Window, "help", Keys::tr("help for this tab"), "F1"),
            free(Scope::Window, "reload", Keys::tr("read the fleet folder again"), "F5"),
            free(Scope::Window, "wall", Keys::tr("wall view, and back"), "F11"),
            free(Scope::Window, "sign-in", Keys::tr("sign in: choose initials"), "Ctrl+I"),
            free(Scope::Window, "theme", Keys::tr("light or dark"), "Ctrl+D"),
            free(Scope::Window, "close", Keys::tr("close; an open session stays as it is"), "Ctrl+Q"),
            fixed(Scope::Window, "message", Keys::tr("closes a message, leaves the wall view"), {"Esc"})};
}

QList<Keys::Use> ofGuide() {
    return {guide("guide.confirm", Kind::Ends, Keys::tr("confirms the step, when all that it asks for is there"), "Return"),
            guide("guide.yes", Kind::Confirms, Keys::tr("answers yes"), "F2"),
            guide("guide.no", Kind::Confirms, Keys::tr("answers no"), "F3"),
            guide("guide.round", Kind::Free, Keys::tr("goes round the waits that run, and back to the step in hand"), "F4"),
            fixed(Scope::Changeover, "guide.end", Keys::tr("ends what was scanned or typed"), {"Return"}),
            fixed(Scope::Changeover, "guide.clear", Keys::tr("clears what was typed"), {"Esc"})};
}

QList<Keys::Use> ofPlan() {
    return {free(Scope::Plan, "plan.undo", Keys::tr("undo a step of the draft"), "Ctrl+Z"),
            free(Scope::Plan, "plan.redo", Keys::tr("redo a step of the draft"), "Ctrl+Y"),
            free(Scope::Plan, "plan.group", Keys::tr("group by family"), "Ctrl+G"),
            free(Scope::Plan, "plan.improve", Keys::tr("improve; while it searches, stop it"), "Ctrl+M"),
            free(Scope::Plan, "plan.lock", Keys::tr("lock what is chosen, or unlock it"), "Ctrl+L"),
            free(Scope::Plan, "plan.what-if", Keys::tr("what if: absence, downtime, rush job"), "Ctrl+T"),
            free(Scope::Plan, "plan.compare", Keys::tr("compare with the published plan and the yardsticks"), "Ctrl+K"),
            free(Scope::Plan, "plan.worth", Keys::tr("worth it? for the chosen job"), "Ctrl+E"),
            free(Scope::Plan, "plan.replan", Keys::tr("re-plan from now"), "Ctrl+R"),
            free(Scope::Plan, "plan.publish", Keys::tr("publish"), "Ctrl+Return"),
            free(Scope::Plan, "plan.discard", Keys::tr("discard the draft"), "Ctrl+Backspace"),
            free(Scope::Plan, "plan.import", Keys::tr("import jobs from CSV"), "Ctrl+O"),
            free(Scope::Plan, "plan.export", Keys::tr("export as JSON, CSV or calendar"), "Ctrl+S"),
            free(Scope::Plan, "plan.print", Keys::tr("print the week, or a printer's day"), "Ctrl+P"),
            free(Scope::Plan, "plan.filter", Keys::tr("filter the jobs not yet placed"), "Ctrl+F")};
}

QList<Keys::Use> ofLists() {
    return {free(Scope::List, "list.filter", Keys::tr("filter as you type"), "Ctrl+F"),
            free(Scope::List, "list.sort-before", Keys::tr("sorts by the column before"), "Ctrl+Shift+Left"),
            free(Scope::List, "list.sort-after", Keys::tr("sorts by the column after"), "Ctrl+Shift+Right"),
            free(Scope::List, "list.sort-up", Keys::tr("sorts upwards"), "Ctrl+Shift+Up"),
            free(Scope::List, "list.sort-down", Keys::tr("sorts downwards"), "Ctrl+Shift+Down"),
            fixed(Scope::List, "list.open", Keys::tr("opens the row"), {"Return"}),
            fixed(Scope::List, "list.clear", Keys::tr("clears the filter"), {"Esc"})};
}

QList<Keys::Use> ofTextAndForms() {
    return {fixed(Scope::Text, "text.copy", Keys::tr("copies what is selected"), {"Ctrl+C"}),
            fixed(Scope::Text, "text.paste", Keys::tr("puts in what was copied"), {"Ctrl+V"}),
            fixed(Scope::Text, "text.cut", Keys::tr("takes out what is selected"), {"Ctrl+X"}),
            fixed(Scope::Text, "text.all", Keys::tr("selects all"), {"Ctrl+A"}),
            fixed(Scope::Text, "text.next", Keys::tr("goes on to the next part, back to the one before"), {"Tab", "Shift+Tab"}),
            fixed(Scope::Form, "form.next", Keys::tr("goes on to the next field; on the last one does what the button says"), {"Return"}),
            fixed(Scope::Form, "form.do", Keys::tr("does what the button says, from any field"), {"Ctrl+Return"}),
            fixed(Scope::Form, "form.close", Keys::tr("closes the form; nothing has happened"), {"Esc"})};
}

} // namespace

QList<Keys::Use> allKeys() {
    return ofWindow() + ofGuide() + ofPlan() + ofLists() + ofTextAndForms();
}

} // namespace interlude
