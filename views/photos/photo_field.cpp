#include "views/photos/photo_field.h"

#include "views/look/widgets.h"

#include <QDragEnterEvent>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QMimeData>
#include <QStandardPaths>
#include <QUrl>
#include <QVBoxLayout>

namespace interlude {

namespace {

constexpr int thumbnail = 8 * look::unit;

QStringList filesOf(const QMimeData* data) {
    QStringList out;
    for (const QUrl& url : data->urls())
        if (url.isLocalFile()) out << url.toLocalFile();
    return out;
}

} // namespace

PhotoField::PhotoField(QWidget* parent)
    : QWidget(parent), m_row(new QHBoxLayout), m_add(look::button(tr("Add photos…"))), m_said(look::mutedLabel(look::Text::Body)) {
    setObjectName(QStringLiteral("problemPhotos"));
    setAcceptDrops(true);
    m_add->setObjectName(QStringLiteral("addPhotos"));
    m_add->setAutoDefault(false);
    m_row->setSpacing(look::unit);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(look::unit / 2);
    all->addWidget(m_add, 0, Qt::AlignLeft);
    all->addWidget(m_said);
    all->addLayout(m_row);
    connect(m_add, &QPushButton::clicked, this, &PhotoField::choose);
    refresh();
}

QString PhotoField::said() const {
    return m_said->text();
}

void PhotoField::choose() {
    auto* dialog = new QFileDialog(this, tr("Add photos"), QStandardPaths::writableLocation(QStandardPaths::PicturesLocation),
                                   tr("Photos (*.jpg *.jpeg *.png);;All files (*)"));
    dialog->setObjectName(QStringLiteral("photoFileDialog"));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setFileMode(QFileDialog::ExistingFiles);
    connect(dialog, &QFileDialog::filesSelected, this, &PhotoField::addFiles);
    dialog->open();
}

void PhotoField::addFiles(const QStringList& files) {
    QStringList against;
    for (const QString& file : files) {
        if (m_photos.size() >= mostPhotos) {
            against << tr("%1 photos are the most for one problem").arg(mostPhotos);
            break;
        }
        auto photo = preparePhoto(file);
        if (!photo) against << sentence(photo.error());
        else if (std::none_of(m_photos.begin(), m_photos.end(), [&](const Photo& p) { return p.sha256 == photo->sha256; }))
            m_photos.append(std::move(*photo));
    }
    refresh();
    if (against.isEmpty()) return;
    look::setTone(m_said, QStringLiteral("alarm"));
    m_said->setText(QStringLiteral("▲ ") + against.join(QLatin1Char('\n')));
    if (window() != this) window()->adjustSize(); // what stands against a file is read whole
}

void PhotoField::refresh() {
    look::clear(m_row);
    for (const Photo& photo : std::as_const(m_photos)) {
        auto* picture = new QLabel;
        picture->setPixmap(QPixmap::fromImage(photo.image.scaled(thumbnail, thumbnail, Qt::KeepAspectRatio, Qt::SmoothTransformation)));
        picture->setAccessibleName(tr("Photo %1").arg(photo.name));
        picture->setToolTip(photo.name);
        auto* out = look::quietButton(QStringLiteral("✕"));
        out->setAccessibleName(tr("Leave out %1").arg(photo.name));
        out->setToolTip(out->accessibleName());
        out->setAutoDefault(false);
        connect(out, &QPushButton::clicked, this, [this, sha256 = photo.sha256] {
            m_photos.removeIf([&](const Photo& p) { return p.sha256 == sha256; });
            refresh();
        });
        m_row->addWidget(picture);
        m_row->addWidget(out, 0, Qt::AlignTop);
    }
    m_row->addStretch(1);
    look::setTone(m_said, QStringLiteral("muted"));
    m_said->setText(m_photos.isEmpty() ? tr("or drop them here: JPEG, PNG. Place and camera are not kept.") : QString());
}

void PhotoField::dragEnterEvent(QDragEnterEvent* event) {
    if (!filesOf(event->mimeData()).isEmpty()) event->acceptProposedAction();
}

void PhotoField::dropEvent(QDropEvent* event) {
    event->acceptProposedAction();
    addFiles(filesOf(event->mimeData()));
}

} // namespace interlude
