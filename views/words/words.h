#pragma once
// How times, quantities and the model's words are said on the screen. Pure functions of plain values, so that they are
// tested without a window; every text goes through translation.

#include "model/changeover/changeover.h"

#include <QString>

namespace interlude::words {

/// Time left as digits: "18:40", from an hour on "1:02:10"; rounded up, so that 00:00 is shown only when it is over.
/// What is over counts up with a plus: "+02:10".
QString countdown(Milliseconds left);
/// The same for a screen reader: "18 minutes 40 seconds left", "over since 2 minutes 10 seconds".
QString countdownSpoken(Milliseconds left);
/// "5 min", "1 h 05 min".
QString minutes(Minutes m);
/// "12 min" for a stretch of time, rounded up; less than a minute: "40 s".
QString stretch(Milliseconds d);
/// "60 °C", "23.5 °C".
QString celsius(Temperature t);
/// "412 cm³", below 10 with one decimal.
QString cm3(Volume v);
/// "0.4 mm".
QString mm(Length l);
/// "640 g".
QString grams(Mass m);
/// "412 cm³ plain, 80 cm³ abrasive" or "no history".
QString runVolume(const RunVolume& run);
/// A number with at most three decimals and no trailing zeros.
QString number(double value);
/// "−0.1 to 0.1 mm", "at least 2 mm", "at most 5 mm"; empty without limits.
QString limits(const ReadingWanted& wanted);

/// Reads a number as people write it: decimal point or comma, hyphen or minus sign, the unit may follow. Refuses
/// thousands separators, since 1,234 could mean either.
Outcome<double> readNumber(const QString& text, const QString& unit = {});
/// "412" or "412 80": plain and abrasive cm³; "no history" is a value too.
Outcome<RunVolume> readRunVolume(const QString& text);

/// The word that stands beside the shape of a severity.
QString severity(Severity s);
/// "Out: part nozzle".
QString scanCaption(ScanTarget t);
QString sensor(Sensor s);
/// "Power on", "Power off", "Isolated from the mains"; empty where it does not matter.
QString power(Power p);
/// "heat gloves" from "heat-gloves".
QString plain(const QString& word);
QString fact(const QString& word);
QString position(Role r);
/// "Bay 1, part": what is mounted or loaded is in that position of that printer.
QString mountedIn(const Catalogue& catalogue, const PrinterId& printer, Role position);
QString activity(Activity a);
QString cleanOut(CleanOut level);
/// "2 × nozzle key — tool board (clean)"; a nozzle or spool with the id that is scanned.
QString pickLine(const Catalogue& catalogue, const PickItem& item);

/// "PC · Marlow 20" of a material id; the id itself when the catalogue does not know it; an em dash for none.
QString material(const Catalogue& catalogue, const MaterialId& id);
/// The polymer alone, for small places.
QString polymer(const Catalogue& catalogue, const MaterialId& id);
/// "hardened 0.4" of a nozzle type's id; the id itself when the catalogue does not know it; an em dash for none.
QString nozzleType(const Catalogue& catalogue, const NozzleTypeId& id);
/// "PC · soluble · 0.4": what a printer wears, in a few words; its label where only that is known.
QString setupNow(const Catalogue& catalogue, const Stock& stock, const PrinterNow& printer);
/// The same for a wanted setup.
QString setupWanted(const Catalogue& catalogue, const Setup& setup);

} // namespace interlude::words
