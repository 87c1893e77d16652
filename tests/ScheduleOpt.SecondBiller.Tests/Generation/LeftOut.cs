namespace ScheduleOpt.SecondBiller.Tests.Generation;

/// <summary>What the two billers are known to see differently, kept out of the draws until one of them or the rule is changed: then set it to false. Each is a
/// sentence of tariffs/README.md, "Rules of the bill".</summary>
internal static class LeftOut
{
    /// <summary>"With `export`, import and export are first netted": over a stretch of several metering intervals this evens out the import also where no export
    /// series is given; the biller then leaves it alone. A series of zeros is given instead.</summary>
    public static readonly bool NettingWithoutExportSeries = true;

    /// <summary>"In the billing period that holds the last day of `settlementMonth`": whether a billing period that begins inside that day holds it.</summary>
    public static readonly bool SettlementInsideTheLastDay = true;

    /// <summary>"a time that the clock skips is its later neighbour": the first time after the gap, or the time as much later as the gap is long.</summary>
    public static readonly bool EventsInSkippedHours = true;

    /// <summary>"Whatever has a `when` that the choices don't match is not there": prices are demanded for its price series all the same.</summary>
    public static readonly bool MissingPricesOfWhatIsNotThere = true;

    /// <summary>Reading dates at the ends of the calendar, which no instant has.</summary>
    public static readonly bool ReadingDatesBeyondInstants = true;

    /// <summary>"each line is rounded when it is made": the biller rounds the minimum's amount before it takes off the counted lines, and then the line again.</summary>
    public static readonly bool MinimumBillRoundedTwice = true;

    /// <summary>"The holiday listed first has a date that two share": not where its rule belongs to another year than its date.</summary>
    public static readonly bool HolidaysOverNewYear = true;
}
