#pragma once
// The words of the step library, each in one place: in YAML, in events and in print. Ledgers keep them: a word stays as it
// is, new ones come beside it.

#include "model/catalogue/procedure.h"

#include <array>
#include <utility>

namespace interlude::procedure_words {

inline constexpr std::array effects{
    std::pair{Effect::None, "none"},
    std::pair{Effect::RemovePart, "remove-part"},
    std::pair{Effect::UnloadPart, "unload-part"},
    std::pair{Effect::UnloadSupport, "unload-support"},
    std::pair{Effect::RemoveNozzlePart, "remove-nozzle-part"},
    std::pair{Effect::RemoveNozzleSupport, "remove-nozzle-support"},
    std::pair{Effect::MountNozzlePart, "mount-nozzle-part"},
    std::pair{Effect::MountNozzleSupport, "mount-nozzle-support"},
    std::pair{Effect::LoadPart, "load-part"},
    std::pair{Effect::LoadSupport, "load-support"},
    std::pair{Effect::PurgePart, "purge-part"},
    std::pair{Effect::PurgeSupport, "purge-support"},
    std::pair{Effect::FitCover, "fit-cover"},
    std::pair{Effect::CleanOut, "clean-out"},
    std::pair{Effect::ClearWiper, "clear-wiper"},
    std::pair{Effect::Align, "align"},
    std::pair{Effect::StartPrint, "start-print"}};

inline constexpr std::array scanTargets{
    std::pair{ScanTarget::Printer, "printer"},
    std::pair{ScanTarget::NozzleOutPart, "nozzle-out-part"},
    std::pair{ScanTarget::NozzleOutSupport, "nozzle-out-support"},
    std::pair{ScanTarget::NozzleInPart, "nozzle-in-part"},
    std::pair{ScanTarget::NozzleInSupport, "nozzle-in-support"},
    std::pair{ScanTarget::SpoolOutPart, "spool-out-part"},
    std::pair{ScanTarget::SpoolOutSupport, "spool-out-support"},
    std::pair{ScanTarget::SpoolInPart, "spool-in-part"},
    std::pair{ScanTarget::SpoolInSupport, "spool-in-support"},
    std::pair{ScanTarget::PlatformCover, "platform-cover"},
    std::pair{ScanTarget::Place, "place"}};

inline constexpr std::array sensors{
    std::pair{Sensor::Chamber, "chamber"},
    std::pair{Sensor::Head, "head"},
    std::pair{Sensor::SupportHead, "support-head"},
    std::pair{Sensor::Platform, "platform"}};

inline constexpr std::array signalWords{
    std::pair{SignalWord::Notice, "notice"},
    std::pair{SignalWord::Caution, "caution"},
    std::pair{SignalWord::Warning, "warning"},
    std::pair{SignalWord::Danger, "danger"}};

inline constexpr std::array powers{
    std::pair{Power::NoMatter, "no-matter"},
    std::pair{Power::On, "on"},
    std::pair{Power::Off, "off"},
    std::pair{Power::Isolated, "isolated"}};

inline constexpr std::array subjects{
    std::pair{Subject::Chamber, "chamber"},
    std::pair{Subject::HeadPart, "head-part"},
    std::pair{Subject::HeadSupport, "head-support"},
    std::pair{Subject::Platform, "platform"},
    std::pair{Subject::Part, "part"},
    std::pair{Subject::Support, "support"}};

} // namespace interlude::procedure_words
