using System.Globalization;
using RepairShop.Documents.Charts;
using RepairShop.Domain.Paperwork;
using RepairShop.Domain.Shop;

namespace RepairShop.Documents.Paperwork;

/// <summary>How one paper writes dates, figures and money: the shop's locale, the paper's currency, the shop's time zone.</summary>
internal sealed class PaperFormats
{
    private const char NoBreakSpace = '\u00A0';

    private readonly NumberFormatInfo _money;
    private readonly NumberFormatInfo _amount;
    private readonly TimeZoneInfo _zone;
    private readonly string _dayPattern;

    public PaperFormats(ShopFacts shop, string currency)
    {
        Culture = DayText.Gregorian(CultureInfo.GetCultureInfo(shop.Locale));
        _zone = TimeZoneInfo.FindSystemTimeZoneById(shop.TimeZone);
        _dayPattern = DayText.PatternOf(Culture);
        _money = (NumberFormatInfo)Culture.NumberFormat.Clone();
        _money.CurrencyDecimalDigits = Currency.MinorUnits(currency);
        _money.CurrencySymbol = CurrencySymbols.SymbolOf(currency, Culture);
        if (char.IsLetter(_money.CurrencySymbol[^1]) && _money.CurrencyPositivePattern < 2)
        {
            // A symbol of letters needs air: "CHF 12.00", not "CHF12.00".
            _money.CurrencyPositivePattern += 2;
            _money.CurrencyNegativePattern = _money.CurrencyPositivePattern == 2 ? 9 : 8;
        }
        // A hyphen is easily overlooked before a figure.
        if (_money.NegativeSign == "-")
            _money.NegativeSign = "−";
        _amount = (NumberFormatInfo)_money.Clone();
        _amount.NumberDecimalDigits = _money.CurrencyDecimalDigits;
        _amount.NumberDecimalSeparator = _money.CurrencyDecimalSeparator;
        _amount.NumberGroupSeparator = _money.CurrencyGroupSeparator;
    }

    public CultureInfo Culture { get; }

    /// <summary>With the currency's symbol.</summary>
    public string Money(decimal amount) => amount.ToString("C", _money).Replace(' ', NoBreakSpace);

    /// <summary>For a column headed with the currency: the figure alone, always with the currency's digits.</summary>
    public string Amount(decimal amount) => amount.ToString("N", _amount);

    /// <summary>Unit prices may have more digits than the currency (EN 16931, BR-DEC rules); they are shown where they are used.</summary>
    public string UnitPrice(decimal price)
    {
        // Division by a one with many zeros drops trailing zeros from the scale.
        var digits = Math.Max(_amount.NumberDecimalDigits, (price / 1.0000000000000000000000000000m).Scale);
        return price.ToString("N" + digits.ToString(CultureInfo.InvariantCulture), _amount);
    }

    public string Quantity(decimal quantity) => quantity.ToString("#,0.####", Culture).Replace('-', '−');

    public string Percent(decimal percent) => percent.ToString("0.###", Culture) + NoBreakSpace + "%";

    public string Day(DateOnly day) => day.ToString(_dayPattern, Culture);

    /// <summary>Without the year, for a column head.</summary>
    public string ShortDay(DateOnly day) =>
        day.ToString(Culture.DateTimeFormat.MonthDayPattern.Replace("MMMM", "MMM", StringComparison.Ordinal), Culture);

    /// <summary>A moment in the shop's zone, with minutes.</summary>
    public string Moment(DateTimeOffset moment)
    {
        var local = TimeZoneInfo.ConvertTime(moment, _zone);
        return local.ToString(_dayPattern, Culture) + ", " + local.ToString("HH:mm", CultureInfo.InvariantCulture);
    }

    /// <summary>A plain number with so many decimals.</summary>
    public string Number(double value, int decimals) => value.ToString("N" + decimals.ToString(CultureInfo.InvariantCulture), Culture);

    /// <summary>A gauge's value as it was measured, without padding.</summary>
    public string Gauge(double value) => value.ToString("#,0.####", Culture);

    /// <summary>Three significant digits, or as many decimals as the uncertainty has (JCGM 100:2008, 7.2.6).</summary>
    public string Milliseconds(double seconds, double? uncertaintySeconds)
    {
        var milliseconds = seconds * 1000;
        return Number(milliseconds, uncertaintySeconds is > 0 ? Decimals(uncertaintySeconds.Value * 1000, 2) : Decimals(milliseconds, 3));
    }

    /// <summary>Two significant digits, rounded up: an uncertainty is never shown smaller than it is (JCGM 100:2008, 7.2.6).</summary>
    public string UncertaintyMilliseconds(double seconds)
    {
        var decimals = Decimals(seconds * 1000, 2);
        var unit = Math.Pow(10, decimals);
        return Number(Math.Ceiling(seconds * 1000 * unit - 1e-6) / unit, decimals);
    }

    public string Stops(double stops) => ErrorInStopsChart.Signed(stops, Culture, 2);

    private static int Decimals(double value, int significant) =>
        value == 0 ? 0 : Math.Clamp(significant - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 4);
}
