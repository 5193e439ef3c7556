//! What is wrong, where, what was found, what was needed and what to do: findings as plain values, and their drawing.
