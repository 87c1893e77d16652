using ScheduleOpt.Service;

return await ServiceHost.RunAsync(args);
