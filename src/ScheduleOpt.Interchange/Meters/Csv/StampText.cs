using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;

namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Reads dates and times as utilities write them.</summary>
/// <param name="order">Order of dates in numbers that do not begin with the year.</param>
internal sealed partial class StampText(DateOrder order)
{
    private static readonly Dictionary<string, int> Zones = new()
    {
        ["UTC"] = 0, ["GMT"] = 0, ["EST"] = -5, ["EDT"] = -4, ["CST"] = -6, ["CDT"] = -5, ["MST"] = -7, ["MDT"] = -6, ["PST"] = -8, ["PDT"] = -7,
    };

    /// <summary>Reads a cell; false where it is no date and no time.</summary>
    public bool TryParse(string cell, out Stamp stamp)
    {
        stamp = default;
        if (cell.Length is < 3 or > 40)
        {
            return false;
        }

        var match = NumericDate().Match(cell);
        LocalDate? date = null;
        if (match.Success)
        {
            date = FromNumbers(match);
        }
        else if ((match = WordDate().Match(cell)).Success)
        {
            date = FromWords(match);
        }
        else if ((match = CompactDate().Match(cell)).Success)
        {
            date = Valid(Number(match, 1), Number(match, 2), Number(match, 3));
        }
        else
        {
            return Time(cell, null, out stamp);
        }

        var rest = cell.AsSpan(match.Length).Trim(" T,").ToString();
        if (date is null)
        {
            return false;
        }

        stamp = new(date, null, null);
        return rest.Length == 0 || Time(rest, date, out stamp);
    }

    /// <summary>Second of the day of an hour in digits: 1 or 24, or hours and minutes such as 0100 or 2400; none for other cells.</summary>
    public static int? SecondOfHour(string cell)
    {
        if (cell.Length is 0 or > 4 || !int.TryParse(cell, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            return null;
        }

        var (hour, minute) = cell.Length <= 2 ? (number, 0) : (number / 100, number % 100);
        return minute < 60 && (hour * 60) + minute <= 1440 ? (hour * 3600) + (minute * 60) : null;
    }

    /// <summary>First and second number of a date that does not begin with the year; none for other cells.</summary>
    public static (int First, int Second)? NumbersOf(string cell) =>
        NumericDate().Match(cell) is { Success: true } match && match.Groups[1].Length <= 2 ? (Number(match, 1), Number(match, 2)) : null;

    private LocalDate? FromNumbers(Match match)
    {
        if (match.Groups[1].Length == 4)
        {
            return match.Groups[3].Length <= 2 ? Valid(Number(match, 1), Number(match, 2), Number(match, 3)) : null;
        }

        if (match.Groups[1].Length > 2 || match.Groups[3].Length is not (2 or 4))
        {
            return null;
        }

        var year = Number(match, 3);
        year += year < 100 ? 2000 : 0;
        return order == DateOrder.DayMonthYear ? Valid(year, Number(match, 2), Number(match, 1)) : Valid(year, Number(match, 1), Number(match, 2));
    }

    private static LocalDate? FromWords(Match match)
    {
        var month = Array.FindIndex(CultureInfo.InvariantCulture.DateTimeFormat.AbbreviatedMonthNames, 0, 12,
            m => match.Groups["month"].Value.StartsWith(m, StringComparison.OrdinalIgnoreCase)) + 1;
        var year = int.Parse(match.Groups["year"].Value, CultureInfo.InvariantCulture);
        return Valid(year < 100 ? year + 2000 : year, month, int.Parse(match.Groups["day"].Value, CultureInfo.InvariantCulture));
    }

    private static LocalDate? Valid(int year, int month, int day) =>
        year is >= 1900 and < 2200 && month is >= 1 and <= 12 && day >= 1 && day <= CalendarSystem.Iso.GetDaysInMonth(year, month)
            ? new(year, month, day) : null;

    private static bool Time(string text, LocalDate? date, out Stamp stamp)
    {
        stamp = default;
        var match = ClockTime().Match(text);
        if (!match.Success)
        {
            return false;
        }

        int hour = Number(match, 1), minute = match.Groups[2].Success ? Number(match, 2) : 0, second = match.Groups[3].Success ? Number(match, 3) : 0;
        var half = match.Groups[4].Value;
        if (half.Length > 0)
        {
            if (hour is < 1 or > 12)
            {
                return false;
            }

            hour = (hour % 12) + (half[0] is 'p' or 'P' ? 12 : 0);
        }
        else if (!match.Groups[2].Success)
        {
            return false;
        }

        var seconds = (hour * 3600) + (minute * 60) + second;
        if (minute > 59 || second > 59 || seconds > 86_400)
        {
            return false;
        }

        stamp = new(date, seconds, OffsetOf(match.Groups[5].Value));
        return match.Groups[5].Length == 0 || stamp.Offset is not null;
    }

    private static Offset? OffsetOf(string text)
    {
        if (text.Length == 0)
        {
            return null;
        }

        if (text is "Z" or "z")
        {
            return Offset.Zero;
        }

        if (Zones.TryGetValue(text.ToUpperInvariant(), out var hours))
        {
            return Offset.FromHours(hours);
        }

        var digits = text[1..].Replace(":", "", StringComparison.Ordinal);
        return text[0] is '+' or '-' && int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var hhmm) && hhmm % 100 < 60 && hhmm <= 1800
            ? Offset.FromSeconds(((hhmm / 100 * 3600) + (hhmm % 100 * 60)) * (text[0] == '-' ? -1 : 1))
            : null;
    }

    private static int Number(Match match, int group) => int.Parse(match.Groups[group].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\A([0-9]{1,4})[-/.]([0-9]{1,2})[-/.]([0-9]{1,4})(?![0-9])", RegexOptions.CultureInvariant)]
    private static partial Regex NumericDate();

    [GeneratedRegex(@"\A(?:(?<day>[0-9]{1,2})[- ](?<month>jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]{0,6}[- ,]{1,2}|(?<month>jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]{0,6}[- ](?<day>[0-9]{1,2}),? )(?<year>[0-9]{4}|[0-9]{2})(?![0-9:])",
        RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture)]
    private static partial Regex WordDate();

    [GeneratedRegex(@"\A((?:19|20|21)[0-9]{2})([0-9]{2})([0-9]{2})(?![0-9.])", RegexOptions.CultureInvariant)]
    private static partial Regex CompactDate();

    [GeneratedRegex(@"\A([0-9]{1,2})(?::([0-9]{2})(?::([0-9]{2})(?:\.[0-9]{1,9})?)?)? ?([AaPp]\.?[Mm]\.?)? ?([A-Za-z]{3}|[Zz]|[+-][0-9]{2}:?[0-9]{2})?\z",
        RegexOptions.CultureInvariant)]
    private static partial Regex ClockTime();
}
