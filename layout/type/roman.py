"""Small Roman figures, as the first pages of a book are numbered."""


def roman(number: int) -> str:
    """A number from 1 to 3999 in small Roman figures."""
    values = (1000, 900, 500, 400, 100, 90, 50, 40, 10, 9, 5, 4, 1)
    figures = ("m", "cm", "d", "cd", "c", "xc", "l", "xl", "x", "ix", "v", "iv", "i")
    text = ""
    for value, figure in zip(values, figures, strict=True):
        text += figure * (number // value)
        number %= value
    return text
