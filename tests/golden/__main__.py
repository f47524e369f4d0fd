"""Keep the values of both reviews as they are now."""

from tests.golden.values import REVIEWS, write

for review in REVIEWS:
    write(review)
