#pragma once
// A ledger that tells how far it has been read: after the program became another one it is read from its beginning, which
// takes minutes where it holds years.

#include "model/ledger/store.h"

namespace interlude::app {

/// The event read last and the last one that there is; false stops the reading. Called every few hundred events.
using Reading = std::function<bool(qint64 read, qint64 all)>;

struct Watch {
    Reading reading; ///< empty: nobody listens (any more)
    bool stopped = false;
};
std::unique_ptr<EventStore> watchedStore(std::unique_ptr<EventStore> store, std::shared_ptr<Watch> watch);

/// Says it on standard error, now and then, once it takes longer than a person would wait without a word.
Reading readingOnStandardError();

} // namespace interlude::app
