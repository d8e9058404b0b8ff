"""How many to order: the need, what is in the shop, what is in the cart, packs and spares."""

from __future__ import annotations


class Order:
    """What to order of one thing.

    ``purchases`` packs (or single pieces) to pay for, ``pieces`` that they hold, None where nobody knows how
    many; ``spare`` pieces beyond the need among what is then there; ``in_packs`` purchases that the cart has
    as typed, or None.
    """

    __slots__ = ("cart_purchases", "pieces", "purchases", "spare", "spare_left_out")

    def __init__(self, purchases: int | None, pack: int, cart: int | None) -> None:
        self.purchases = purchases
        self.pieces = None if purchases is None else purchases * pack
        self.cart_purchases = None if cart is None else packs_for(cart, pack)
        self.spare = 0
        self.spare_left_out = False

    @property
    def change(self) -> int:
        """Purchases more (or fewer, negative) than the cart has; 0 where either is not known."""
        if self.purchases is None or self.cart_purchases is None:
            return 0
        return self.purchases - self.cart_purchases


def packs_for(pieces: int, pack: int) -> int:
    """Whole packs that hold ``pieces``.

    >>> packs_for(10, 4), packs_for(8, 4), packs_for(0, 4)
    (3, 2, 0)
    """
    return -(-pieces // pack)


def order(
    need: int | None, in_hand: int, cart: int | None, pack: int = 1, spare: int = 0, most: int | None = None
) -> Order:
    """What to order.

    need     pieces that the build takes; None: nobody knows, then the cart is taken as it stands
    in_hand  pieces in the shop
    cart     pieces in the cart; None: no count was typed
    pack     pieces in one purchase
    spare    pieces to have beyond the need; they come along where they cost no whole pack of their own
    most     pieces that are no surplus: a cart between need and this is left as it is

    >>> order(10, 0, 8, pack=4).purchases
    3
    >>> order(6, 0, 6, spare=1).purchases
    7
    """
    if need is None:
        return Order(None if cart is None else packs_for(cart, pack), pack, cart)
    short = max(0, need - in_hand)
    least = packs_for(short, pack)
    with_spare = packs_for(short + spare, pack) if short else 0
    wanted = with_spare if pack == 1 else least
    typed = 0 if cart is None else packs_for(cart, pack)
    fits = most is not None and cart is not None and wanted <= typed and in_hand + cart <= max(most, in_hand)
    found = Order(typed if fits else wanted, pack, cart)
    found.spare = max(0, in_hand + (found.pieces or 0) - need)
    found.spare_left_out = bool(short) and found.spare < spare
    return found
