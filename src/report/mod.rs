//! One file per question a grower asks: plain serialisable values, all wording and order decided, no format.
