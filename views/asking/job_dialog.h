#pragma once
// Add or change a job: what it is, when it is due, and its variants, each with materials, nozzle types, minutes and
// volumes. Bad input is named field by field; nothing typed is lost.

#include "views/asking/ask_dialog.h"
#include "views/bench/bench.h"

class QListWidget;
class QTableWidget;

namespace interlude {

/// One variant as typed. `minutes` as in a CSV: "840", or by printer "bay-1: 54; bay-2: 61".
struct VariantText {
    QString name, part, support, partNozzle, supportNozzle, minutes, partCm3, supportCm3, chamberC;
    QString label{}; ///< of a setup known by it alone, while no part material is chosen
};
VariantText variantText(const Variant& v);
/// The variant, or which field is wrong and what would be right. `keep` supplies what the form does not show.
Outcome<Variant> variantFrom(const VariantText& text, const Variant& keep, const Catalogue& catalogue);

class JobDialog final : public AskDialog {
    Q_OBJECT
public:
    /// `job` empty: a new one.
    JobDialog(Bench& bench, const JobId& job, QWidget* parent);
    /// Gives the job to `take` instead of recording it: a job that is only imagined (the plan's *What if*).
    void setTaker(std::function<std::optional<Finding>(const Job&)> take) { m_take = std::move(take); }

private:
    void addVariants(const Job& job);
    /// `kept`: which variant of the job it is, -1 = a new one.
    void addVariantRow(const VariantText& text, int kept = -1);
    Variant keptBy(int row) const;
    VariantText rowText(int row) const;
    std::optional<Finding> keepJob();
    Bench& m_bench;
    Job m_job;
    bool m_new;
    std::function<std::optional<Finding>(const Job&)> m_take;
    QLineEdit *m_id, *m_title, *m_partNumber, *m_revision, *m_quantity, *m_lateCost;
    QCheckBox *m_hasRelease, *m_hasDue;
    QDateTimeEdit *m_release, *m_due;
    QTableWidget* m_variants;
};

/// Withdraw a job, with a reason.
AskDialog* askWithdraw(Bench& bench, const JobId& job, QWidget* parent);

} // namespace interlude
