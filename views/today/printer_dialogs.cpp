#include "views/today/printer_dialogs.h"

#include "views/words/words.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QLineEdit>

namespace interlude {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("printer_dialogs", text);
}

/// Empty text = as the job says; else a volume.
Outcome<std::optional<Volume>> volumeFrom(const QString& text, const QString& caption) {
    if (text.trimmed().isEmpty()) return std::optional<Volume>();
    auto v = words::readNumber(text, QStringLiteral("cm³"));
    if (!v || *v < 0 || *v > 1e6)
        return refusal(QStringLiteral("volume"), tr("%1 “%2” cannot be").arg(caption, text.trimmed()),
                       tr("a number of cm³, or nothing"));
    return std::optional<Volume>(Volume::fromCm3(*v));
}

} // namespace

AskDialog* askPrintEnded(Bench& bench, const PrinterId& printer, QWidget* parent) {
    const PrinterNow* p = bench.shop().printer(printer);
    auto* d = new AskDialog(tr("%1: print of %2 ended").arg(bench.catalogue().printerName(printer), p ? p->job : QString()),
                            tr("What was extruded counts for nozzle use and stock. Left empty it is what the job says, in "
                               "proportion to its time if the print did not end well."),
                            tr("Print ended"), parent);
    d->setObjectName(QStringLiteral("printEndDialog"));
    QComboBox* outcome = d->addChoice(QStringLiteral("endOutcome"), tr("It ended"),
                                      {{tr("good"), QStringLiteral("0")},
                                       {tr("failed"), QStringLiteral("1")},
                                       {tr("stopped by a person"), QStringLiteral("2")}});
    QCheckBox* lying = d->addCheck(QStringLiteral("endPartLying"), tr("A part lies on the platform"), true);
    const QString hint = tr("empty: as the job says");
    QLineEdit* part = d->addLine(QStringLiteral("endPartCm3"), tr("Part material, cm³"), {}, hint);
    QLineEdit* support = d->addLine(QStringLiteral("endSupportCm3"), tr("Support material, cm³"), {}, hint);
    QLineEdit* note = d->addLine(QStringLiteral("endNote"), tr("Note"));
    QDateTimeEdit* when =
        d->addTime(QStringLiteral("endWhen"), tr("It ended at"), bench.now(), bench.catalogue().fleet.zone);
    const QDateTime opened = when->dateTime();
    d->setAct([=, &bench]() -> std::optional<Finding> {
        act::PrintEnded e;
        e.printer = printer;
        e.outcome = static_cast<PrintOutcome>(outcome->currentData().toString().toInt());
        e.partOnPlatform = lying->isChecked();
        auto partVolume = volumeFrom(part->text(), tr("Part material"));
        if (!partVolume) return partVolume.error();
        auto supportVolume = volumeFrom(support->text(), tr("Support material"));
        if (!supportVolume) return supportVolume.error();
        e.part = *partVolume;
        e.support = *supportVolume;
        e.note = note->text().trimmed();
        if (e.outcome != PrintOutcome::Good)
            if (auto f = missingField(tr("Note"), e.note)) return f;
        std::optional<Instant> at;
        if (when->dateTime() != opened) at = zoned(*when, bench.catalogue().fleet.zone);
        return findingOf(bench.workbench().perform(e, bench.who(), at));
    });
    d->open();
    outcome->setFocus();
    return d;
}

AskDialog* askDowntime(Bench& bench, const PrinterId& printer, QWidget* parent) {
    auto* d = new AskDialog(tr("%1: declare downtime").arg(bench.catalogue().printerName(printer)), {}, tr("Declare downtime"), parent);
    d->setObjectName(QStringLiteral("downtimeDialog"));
    QLineEdit* why = d->addLine(QStringLiteral("downWhy"), tr("Why"));
    QCheckBox* known = d->addCheck(QStringLiteral("downUntilKnown"), tr("It is known when it will be back"), false);
    const QTimeZone zone = bench.catalogue().fleet.zone;
    QDateTimeEdit* until =
        d->addTime(QStringLiteral("downUntil"), tr("Expected back"), bench.now() + std::chrono::hours(4), zone);
    until->setEnabled(false);
    QObject::connect(known, &QCheckBox::toggled, until, &QWidget::setEnabled);
    d->setAct([=, &bench]() -> std::optional<Finding> {
        if (auto f = missingField(tr("Why"), why->text())) return f;
        act::DowntimeBegun e{printer, why->text().trimmed(), std::nullopt};
        if (known->isChecked()) e.until = zoned(*until, zone);
        if (e.until && *e.until <= bench.now())
            return Finding{Severity::Refusal, QStringLiteral("downtime"), tr("“Expected back” lies in the past"),
                           tr("a time after now, or leave it open"), {}, false};
        return findingOf(bench.workbench().perform(e, bench.who()));
    });
    d->open();
    why->setFocus();
    return d;
}

} // namespace interlude
