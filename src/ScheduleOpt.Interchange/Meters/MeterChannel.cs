using ScheduleOpt.Tariffs;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>One metered flow of one meter.</summary>
/// <param name="Name">A name of our own, such as 'meter 1, delivered': names and addresses in the file are personal and are not kept.</param>
/// <param name="Direction">Which way the energy flows; a net flow appears as both.</param>
/// <param name="IsVehicle">Whether the file says that the meter measures a car alone.</param>
/// <param name="Series">Its energy in equal intervals.</param>
/// <param name="Report">What the series was made of.</param>
public sealed record MeterChannel(string Name, FlowDirection Direction, bool IsVehicle, MeteredSeries Series, MeterReport Report);
