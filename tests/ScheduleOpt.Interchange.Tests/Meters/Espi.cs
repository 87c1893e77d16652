using System.Globalization;

namespace ScheduleOpt.Interchange.Tests.Meters;

/// <summary>Writes small Green Button files.</summary>
internal static class Espi
{
    public const long Start = 1_767_243_600; // 2026-01-01 00:00 in New York

    public static string Reading(long? start, int? duration, long value, int? quality = null) =>
        "<IntervalReading>"
        + (quality is { } q ? $"<ReadingQuality><quality>{q}</quality></ReadingQuality>" : "")
        + (start is { } s ? $"<timePeriod>{(duration is { } d ? $"<duration>{d}</duration>" : "")}<start>{s}</start></timePeriod>" : "")
        + $"<value>{value}</value></IntervalReading>";

    public static string Block(string readings, long? start = null, long duration = 0, string meter = "1", string updated = "2026-02-01T00:00:00Z") =>
        $"""
        <entry><link rel="self" href="/UsagePoint/1/MeterReading/{meter}/IntervalBlock/{readings.Length}"/>
        <link rel="up" href="/UsagePoint/1/MeterReading/{meter}/IntervalBlock"/>
        <content><IntervalBlock xmlns="http://naesb.org/espi">{(start is { } s ? $"<interval><duration>{duration}</duration><start>{s}</start></interval>" : "")}{readings}</IntervalBlock></content>
        <updated>{updated}</updated></entry>
        """;

    public static string Hours(params long[] values) =>
        Block(string.Concat(values.Select((v, i) => Reading(Start + (3600 * i), 3600, v))));

    public static string Type(
        int unit = 72, int power = 0, int? accumulation = 4, int? flow = 1, int? length = 3600, string meter = "1", string? more = null) =>
        $"""
        <entry><link rel="self" href="/ReadingType/{meter}"/><content><ReadingType xmlns="http://naesb.org/espi">
        {Element("accumulationBehaviour", accumulation)}{Element("flowDirection", flow)}{Element("intervalLength", length)}
        <powerOfTenMultiplier>{power}</powerOfTenMultiplier><uom>{unit}</uom>{more}</ReadingType></content></entry>
        """;

    public static string Meter(string meter = "1") =>
        $"""
        <entry><link rel="self" href="/UsagePoint/1/MeterReading/{meter}"/><link rel="up" href="/UsagePoint/1/MeterReading"/>
        <link rel="related" href="/UsagePoint/1/MeterReading/{meter}/IntervalBlock"/><link rel="related" href="/ReadingType/{meter}"/>
        <content><MeterReading xmlns="http://naesb.org/espi"/></content></entry>
        """;

    public static string Point(int kind = 0, string roles = "") =>
        $"""
        <entry><link rel="self" href="/UsagePoint/1"/><link rel="related" href="/UsagePoint/1/MeterReading"/>
        <content><UsagePoint xmlns="http://naesb.org/espi"><ServiceCategory><kind>{kind}</kind></ServiceCategory>{(roles.Length > 0 ? $"<roleFlags>{roles}</roleFlags>" : "")}</UsagePoint></content></entry>
        """;

    public static string Feed(params string[] entries) =>
        $"""<?xml version="1.0" encoding="UTF-8"?><feed xmlns="http://www.w3.org/2005/Atom">{string.Concat(entries)}</feed>""";

    /// <summary>A meter, its reading type and the blocks.</summary>
    public static string File(string type, params string[] blocks) => Feed([Point(), Meter(), type, .. blocks]);

    private static string Element(string name, int? value) => value is { } v ? string.Create(CultureInfo.InvariantCulture, $"<{name}>{v}</{name}>") : "";
}
