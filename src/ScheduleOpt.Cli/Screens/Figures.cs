using System.Globalization;
using ScheduleOpt.Core;

namespace ScheduleOpt.Cli.Screens;

/// <summary>How figures are written on a screen.</summary>
internal static class Figures
{
    /// <summary>Money with its currency and two decimals.</summary>
    public static string Money(decimal amount, string currency) => $"{Amount(amount)} {currency}";

    /// <summary>The same from binary arithmetic.</summary>
    public static string Money(double amount, string currency) => Money((decimal)amount, currency);

    /// <summary>Money whose currency the heading names.</summary>
    public static string Amount(decimal amount) => Rounded(amount, 2).ToString("#,0.00", CultureInfo.InvariantCulture);

    /// <summary>A price of a kilowatt-hour.</summary>
    public static string Price(decimal perKwh) => Rounded(perKwh, 4).ToString("0.0000", CultureInfo.InvariantCulture);

    /// <summary>Energy with its unit.</summary>
    public static string Kwh(double kwh) => $"{Number(kwh)} kWh";

    /// <summary>A number with one decimal.</summary>
    public static string Number(double number) => Rounded((decimal)number, 1).ToString("#,0.0", CultureInfo.InvariantCulture);

    /// <summary>A whole number.</summary>
    public static string Whole(double number) => Rounded((decimal)number, 0).ToString("#,0", CultureInfo.InvariantCulture);

    /// <summary>A plain number as short as it can be.</summary>
    public static string Plain(double number) => ((decimal)number).ToString("0.####", CultureInfo.InvariantCulture);

    /// <summary>A state of charge.</summary>
    public static string State(double fraction) => $"{Whole(100 * fraction)} %";

    /// <summary>A share of departures, with a decimal where it is neither none nor all; never rounded to all.</summary>
    public static string Share(double? fraction) => fraction switch
    {
        null => "none",
        0 => "0 %",
        1 => "100 %",
        { } f => $"{Number(Math.Min(99.9, 100 * f))} %",
    };

    /// <summary>How long something lasts.</summary>
    public static string Hours(double hours)
    {
        var minutes = (int)Math.Round(hours * 60);
        return minutes < 60 ? $"{minutes} min" : string.Create(CultureInfo.InvariantCulture, $"{minutes / 60} h {minutes % 60:00} min");
    }

    // Adding zero turns a negative zero into a plain one.
    private static decimal Rounded(decimal number, int digits) => Math.Round(number, digits, MidpointRounding.AwayFromZero) + 0m;
}
