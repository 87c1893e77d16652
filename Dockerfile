# The service as a user without rights. Name the two .NET 10 images that your builder has:
#   docker build --build-arg SDK_IMAGE=<.NET 10 SDK image> --build-arg RUNTIME_IMAGE=<ASP.NET Core 10 runtime image> -t scheduleopt .
# In a container it must listen beyond loopback, which it does only with a key of at least 24 characters:
#   docker run -e ScheduleOpt__ApiKey=... -e AllowedHosts=your.name -p 127.0.0.1:5080:5080 scheduleopt
ARG SDK_IMAGE=dotnet/sdk:10.0
ARG RUNTIME_IMAGE=dotnet/aspnet:10.0

FROM ${SDK_IMAGE} AS build
WORKDIR /source
COPY . .
RUN dotnet publish src/ScheduleOpt.Service -c Release -o /app

FROM ${RUNTIME_IMAGE}

# The letters of the report's charts; both usual runtime images are Debian or Ubuntu.
RUN apt-get update && apt-get install -y --no-install-recommends fonts-dejavu-core && rm -rf /var/lib/apt/lists/*
WORKDIR /app
COPY --from=build /app .
USER 1000
EXPOSE 5080
ENTRYPOINT ["dotnet", "ScheduleOpt.Service.dll"]
CMD ["--urls", "http://0.0.0.0:5080"]
