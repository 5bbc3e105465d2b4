#include "app/verbs/opened_shop.h"

#include "model/records/record.h"
#include "views/paper/paper.h"
#include "views/photos/photo.h"

namespace interlude::app {

int record(const RecordOptions& options) {
    const SystemClock clock;
    const auto workbench = openShop(options.fleet, Access::Look, clock);
    if (!workbench) return 1;
    const qint64 last = workbench->shop().lastSession();
    if (last == 0) {
        complain(QStringLiteral("No changeover session has been recorded here yet"));
        return 1;
    }
    const qint64 number = options.session.value_or(last);
    const SessionState* session = workbench->shop().session(number);
    if (!session) {
        complain(QStringLiteral("There is no session %1; the last one is %2").arg(number).arg(last));
        return 2;
    }
    const Record recorded = recordWithPhotos(*workbench, *session);
    const auto pages =
        paper::writeRecordPdf(recorded, options.pdf, options.letter ? paper::Size::Letter : paper::Size::A4);
    if (!pages) {
        complain(sentence(pages.error()));
        return 1;
    }
    say(QStringLiteral("%1: session %2, %3 page%4").arg(options.pdf).arg(number).arg(*pages).arg(
        *pages == 1 ? QString() : QStringLiteral("s")));
    return 0;
}

} // namespace interlude::app
