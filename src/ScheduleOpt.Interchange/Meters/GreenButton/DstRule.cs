using System.Globalization;
using NodaTime;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>When in a year daylight saving begins or ends, by the bit map of ESPI's DstRuleType (usage.xsd 3.3): bits 0-11 seconds, 12-16 hours, 17-19 day of
/// the week (1 Monday to 7 Sunday), 20-24 day of the month, 25-27 operator, 28-31 month.</summary>
internal sealed record DstRule(int Month, int Operator, int Day, int Weekday, int Hour, int Second)
{
    private const int OnDay = 0, OnOrAfterDay = 1, Last = 7;

    /// <summary>Decodes eight hexadecimal digits.</summary>
    /// <param name="hex">The digits.</param>
    /// <param name="rule">The rule; none where the digits are FFFFFFFF, which switches daylight saving off.</param>
    /// <returns>Whether the digits have a meaning.</returns>
    public static bool TryParse(string hex, out DstRule? rule)
    {
        rule = null;
        if (hex.Length is 0 or > 8 || !uint.TryParse(hex, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var bits))
        {
            return false;
        }

        if (bits == uint.MaxValue)
        {
            return true;
        }

        rule = new((int)(bits >> 28), (int)(bits >> 25) & 7, (int)(bits >> 20) & 31, (int)(bits >> 17) & 7, (int)(bits >> 12) & 31, (int)(bits & 4095));
        return rule.Month is >= 1 and <= 12 && rule.Hour <= 24 && rule.Second <= 3600
            && (rule.Operator == OnDay ? rule.Day >= 1 : rule.Weekday >= 1 && (rule.Operator != OnOrAfterDay || rule.Day >= 1));
    }

    /// <summary>The local clock time at which it holds in a year, on the clock that is shown until then.</summary>
    public LocalDateTime In(int year)
    {
        var first = new LocalDate(year, Month, 1);
        var days = first.Calendar.GetDaysInMonth(year, Month);
        var date = Operator switch
        {
            OnDay => first.PlusDays(Math.Min(Day, days) - 1),
            OnOrAfterDay => OnOrAfter(first.PlusDays(Math.Min(Day, days) - 1)),
            Last => OnOrAfter(first.PlusDays(days - 7)),
            _ => OnOrAfter(first.PlusDays(7 * (Operator - 2))),
        };
        return date.AtMidnight().PlusHours(Hour).PlusSeconds(Second);
    }

    private LocalDate OnOrAfter(LocalDate date) => date.PlusDays((Weekday - (int)date.DayOfWeek + 7) % 7);
}
