from urllib.parse import quote, urlencode

import segno

from shop.answers.second_factor import AuthenticatorOut

ISSUER = "Kitwright"
QUIET_ZONE = 4  # modules


def authenticator_answer(secret: str, email: str) -> AuthenticatorOut:
    """`secret` is in base32."""
    url = f"otpauth://totp/{quote(f'{ISSUER}:{email}')}?{urlencode({'secret': secret, 'issuer': ISSUER})}"
    matrix = segno.make(url, micro=False, error="m").matrix
    path = "".join(
        f"M{x + QUIET_ZONE} {y + QUIET_ZONE}h1v1h-1z"
        for y, row in enumerate(matrix)
        for x, module in enumerate(row)
        if module
    )
    return AuthenticatorOut(secret=secret, url=url, size=len(matrix) + 2 * QUIET_ZONE, path=path)
