using System.Globalization;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using ScheduleOpt.Interchange.Answers;
using ScheduleOpt.Interchange.Requests;

namespace ScheduleOpt.Interchange.Outputs;

/// <summary>Writes a charging profile as the body of a SetChargingProfile request.</summary>
/// <remarks>Absolute and in UTC: a daily recurrence would slide by an hour when the clocks change.</remarks>
public static class ChargingProfileWriter
{
    /// <summary>Writes the body alone, as UTF-8.</summary>
    public static byte[] Write(ChargingProfile profile) => AnswerJson.Write(json => WriteBody(json, profile));

    /// <summary>Writes a member with the body, its energy and its notes.</summary>
    internal static void WriteMember(Utf8JsonWriter json, string name, ChargingProfile profile)
    {
        json.WriteStartObject(name);
        json.WriteString("version", NameOf(profile.Choice.Version));
        json.WriteStartObject("request");
        WriteBody(json, profile);
        json.WriteEndObject();
        json.WriteRounded("plannedEnergyKwh", profile.PlannedKwh, 4);
        json.WriteRounded("energyKwh", profile.EnergyKwh, 4);
        json.WriteSentences("notes", profile.Notes);
        json.WriteEndObject();
    }

    private static string NameOf(ChargePointProtocol version) => version switch
    {
        ChargePointProtocol.V16 => "1.6",
        ChargePointProtocol.V201 => "2.0.1",
        _ => "2.1",
    };

    private static void WriteBody(Utf8JsonWriter json, ChargingProfile profile)
    {
        var first = profile.Choice.Version == ChargePointProtocol.V16;
        json.WriteNumber(first ? "connectorId" : "evseId", profile.Outlet);
        json.WriteStartObject(first ? "csChargingProfiles" : "chargingProfile");
        json.WriteNumber(first ? "chargingProfileId" : "id", profile.Id);
        json.WriteNumber("stackLevel", 0);
        json.WriteString("chargingProfilePurpose", "TxDefaultProfile");
        json.WriteString("chargingProfileKind", "Absolute");
        json.WriteString("validFrom", Utc(profile.ValidFrom));
        json.WriteString("validTo", Utc(profile.ValidTo));
        if (first)
        {
            json.WriteStartObject("chargingSchedule");
            WriteSchedule(json, profile);
            json.WriteEndObject();
        }
        else
        {
            json.WriteStartArray("chargingSchedule");
            json.WriteStartObject();
            json.WriteNumber("id", 1);
            WriteSchedule(json, profile);
            json.WriteEndObject();
            json.WriteEndArray();
        }

        json.WriteEndObject();
    }

    private static void WriteSchedule(Utf8JsonWriter json, ChargingProfile profile)
    {
        json.WriteString("startSchedule", Utc(profile.ValidFrom));
        json.WriteNumber("duration", (long)(profile.ValidTo - profile.ValidFrom).TotalSeconds);
        json.WriteString("chargingRateUnit", profile.Choice.Unit == ChargingRateUnit.Watts ? "W" : "A");
        WriteTenths(json, "minChargingRate", profile.LeastRate);
        json.WriteStartArray("chargingSchedulePeriod");
        foreach (var period in profile.Periods)
        {
            json.WriteStartObject();
            json.WriteNumber("startPeriod", period.StartSeconds);
            WriteTenths(json, "limit", period.Limit);
            json.WriteNumber("numberPhases", profile.Phases);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    // From decimal: in binary, 6.1 is no multiple of 0.1.
    private static void WriteTenths(Utf8JsonWriter json, string name, decimal number)
    {
        json.WritePropertyName(name);
        json.WriteRawValue(number.ToString("F1", CultureInfo.InvariantCulture));
    }

    private static string Utc(Instant instant) => InstantPattern.General.Format(instant);
}
