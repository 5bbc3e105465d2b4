#pragma once
// What a person sees who starts the program without saying which fleet: the folders opened last, another folder, a new
// one, the example. Also where the reasons stand when a folder cannot be opened.

#include <QDialog>

class QLabel;
class QListWidget;

namespace interlude {

class FleetChooser final : public QDialog {
    Q_OBJECT
public:
    /// `example`: folder of the sample fleet; empty where there is none, and then it is not offered.
    explicit FleetChooser(const QString& example, QWidget* parent = nullptr);

    /// The folder chosen; empty until then.
    QString folder() const { return m_folder; }
    /// The folder shall be made first, from the texts that are built in (`interlude new`).
    bool isNew() const { return m_new; }
    /// Why `folder` was not opened, a line each; shown above the choice.
    void showReasons(const QString& folder, const QStringList& reasons);

    /// The folders opened last on this PC that are still there, the newest first.
    static QStringList recent();
    /// To be called once a folder has been opened.
    static void remember(const QString& folder);

private:
    void choose(const QString& folder, bool isNew = false);
    void askFolder(bool isNew);

    QLabel* m_reasons;
    QListWidget* m_recent;
    QString m_folder;
    bool m_new = false;
};

} // namespace interlude
