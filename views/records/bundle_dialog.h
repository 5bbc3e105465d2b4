#pragma once
// An export bundle opened from the file manager: what it is, whether each file is still as it was written.

#include "model/records/bundle_check.h"

#include <QDialog>

namespace interlude {

class BundleDialog final : public QDialog {
    Q_OBJECT
public:
    /// `checked`: what `checkBundle` found, or why it could not.
    explicit BundleDialog(const Outcome<BundleCheck>& checked, QWidget* parent = nullptr);

private:
    void tell(const BundleCheck& check, class QVBoxLayout* all);
    void addButtons(const QString& folder, class QVBoxLayout* all);
};

} // namespace interlude
