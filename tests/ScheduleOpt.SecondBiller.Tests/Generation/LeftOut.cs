namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>What the two billers are known to see differently, kept out of the draws until one of them or the rule is changed: then set it to false. Each is a
/// sentence of tariffs/README.md, "Rules of the bill".</summary>
internal static class LeftOut
{
    /// <summary>"each line is rounded when it is made": the biller rounds the minimum's amount before it takes off the counted lines, and then the line again.</summary>
    public static readonly bool MinimumBillRoundedTwice = true;

    /// <summary>"The holiday listed first has a date that two share": not where its rule belongs to another year than its date.</summary>
    public static readonly bool HolidaysOverNewYear = true;
}
