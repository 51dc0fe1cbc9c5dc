"""Currencies by ISO 4217, without those that are no money in daily use (metals, test codes, units of account)."""

from __future__ import annotations

from typing import Final

CURRENCIES: Final = frozenset(
    """
    AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CLP CNY COP
    CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR
    IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU
    MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG
    SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VED VES VND VUV
    WST XAF XCD XCG XOF XPF YER ZAR ZMW ZWG
    """.split()  # noqa: SIM905 (one code a line would be a page)
)
"""Their codes."""

ORDER: Final = {
    **dict.fromkeys(("DKK", "NOK", "SEK", "ZAR", "MXN", "THB", "CNY", "HKD"), 10),
    **dict.fromkeys(("PLN", "RON", "ILS", "MYR", "BRL"), 5),
    **dict.fromkeys(("CZK", "TWD", "TRY", "UAH"), 25),
    **dict.fromkeys(("INR", "RUB", "PHP", "RSD", "ISK", "JPY"), 100),
    **dict.fromkeys(("HUF",), 400),
    **dict.fromkeys(("KRW", "CLP"), 1000),
    **dict.fromkeys(("IDR", "VND"), 15000),
}
"""How many are about one euro, to the order of magnitude, for first guesses only (common practice, no source)."""
